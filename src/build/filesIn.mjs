import { readdirSync } from 'node:fs';
import { inRoot } from './paths.mjs';

/**
 * The files in a folder of the project and the folders below it whose path matches, sorted, with '/' and relative to the project. Installed packages don't count.
 * @param {string} folder
 * @param {RegExp} pattern
 * @returns {string[]}
 */
export function filesIn(folder, pattern) {
  return readdirSync(inRoot(folder), { withFileTypes: true })
    .flatMap((entry) => {
      const path = `${folder}/${entry.name}`;
      if (entry.isDirectory()) return entry.name === 'node_modules' ? [] : filesIn(path, pattern);
      return pattern.test(path) ? [path] : [];
    })
    .sort();
}
