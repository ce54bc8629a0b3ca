import { mkdirSync, readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { inRoot } from './paths.mjs';

/**
 * Writes dist/third-party-notices.txt: name, version and licence text of every package that stands in the bundles. Throws when one names no licence.
 * @param {readonly string[]} inputs the files that went into the bundles, relative to the project
 */
export function writeNotices(inputs) {
  const names = inputs.map((input) => /^node_modules\/((?:@[^/]+\/)?[^/]+)\//.exec(input)?.[1]).filter((name) => name !== undefined);
  const notices = [...new Set(names)].sort().map((name) => {
    const folder = inRoot('node_modules', name);
    const { version, license, author, repository } = JSON.parse(readFileSync(`${folder}/package.json`, 'utf8'));
    if (!license) throw new Error(`${name} is bundled, but names no licence`);
    const file = readdirSync(folder).find((each) => /^licen[cs]e/i.test(each));
    const text = file ? readFileSync(`${folder}/${file}`, 'utf8').trim() : `By ${author?.name ?? author}, ${repository?.url ?? repository}`;
    return `${name} ${version} (${license})\n\n${text}\n`;
  });
  mkdirSync(inRoot('dist'), { recursive: true });
  writeFileSync(inRoot('dist/third-party-notices.txt'), `Broodsheet contains the following packages.\n\n${notices.join('\n---\n\n')}`);
}
