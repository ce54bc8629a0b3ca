// node src/build/package.mjs: builds for production and packs dist/broodsheet.vsix.
import { mkdirSync } from 'node:fs';
import { pathToFileURL } from 'node:url';
import { build } from './build.mjs';
import { inRoot } from './paths.mjs';
import { runQuietly } from './run.mjs';

/** Packs what stands in dist. Gives the path of the package and what the packer printed: the list of files. Throws when it finds something amiss. */
export async function packVsix() {
  const file = inRoot('dist/broodsheet.vsix');
  mkdirSync(inRoot('dist'), { recursive: true });
  const args = ['package', '--no-dependencies', '--allow-missing-repository', '--no-rewrite-relative-links', '--out', file];
  const { code, output } = await runQuietly(process.execPath, [inRoot('node_modules/@vscode/vsce/vsce'), ...args]);
  if (code !== 0) throw new Error(`the extension can't be packed:\n${output}`);
  return { file, output };
}

if (import.meta.url === pathToFileURL(process.argv[1] ?? '').href) {
  await build({ production: true });
  console.log((await packVsix()).output);
}
