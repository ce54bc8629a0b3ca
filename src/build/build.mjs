// node src/build/build.mjs [--production] [--watch]: makes dist/extension.js, dist/extension.web.js, dist/cli.js, dist/sample.json and the translated schemas.
import { existsSync, rmSync, writeFileSync } from 'node:fs';
import { parseArgs } from 'node:util';
import { pathToFileURL } from 'node:url';
import { context } from 'esbuild';
import { writeNotices } from './notices.mjs';
import { inRoot, root } from './paths.mjs';
import { packSample } from './sample.mjs';
import { translatedSchemas } from './translations.mjs';

/**
 * What every bundle has in common, those of the tests too.
 * @satisfies {import('esbuild').BuildOptions}
 */
export const bundling = /** @type {const} */ ({
  absWorkingDir: root,
  bundle: true,
  format: 'cjs',
  target: 'es2022',
  // What packages publish for `require` can't always be bundled.
  mainFields: ['module', 'main'],
  loader: { '.csv': 'text', '.json': 'json' },
  sourcemap: true,
  sourcesContent: false,
  logLevel: 'warning',
});

/** @type {readonly (import('esbuild').BuildOptions & { entry: string, outfile: string })[]} */
const products = [
  { entry: 'src/vscode/extension.ts', outfile: 'dist/extension.js', platform: 'node', external: ['vscode'] },
  // In the browser the host is a web worker that hands out `vscode` by a `require` of its own.
  { entry: 'src/vscode/extension.ts', outfile: 'dist/extension.web.js', platform: 'browser', external: ['vscode'], mainFields: ['browser', 'module', 'main'] },
  { entry: 'src/cli/main.ts', outfile: 'dist/cli.js', platform: 'node', banner: { js: '#!/usr/bin/env node' } },
  // With its style sheets, as dist/calendar.css.
  { entry: 'webview/calendar/main.ts', outfile: 'dist/calendar.js', platform: 'browser', format: 'iife', mainFields: ['browser', 'module', 'main'], loader: { ...bundling.loader, '.ttf': 'file' }, assetNames: '[name]' },
];

/**
 * Makes all bundles. With `watch` they are made again whenever a source changes, until the process ends. Throws when an entry is missing or doesn't compile.
 * @param {{ production?: boolean, watch?: boolean }} [options]
 */
export async function build({ production = false, watch = false } = {}) {
  const missing = products.map((product) => product.entry).filter((entry) => !existsSync(inRoot(entry)));
  if (missing.length > 0) throw new Error(`nothing to build from: ${[...new Set(missing)].join(', ')}`);
  for (const { outfile } of products) for (const file of [outfile, `${outfile}.map`]) rmSync(inRoot(file), { force: true });
  packSample(inRoot('dist/sample.json'));
  const contexts = await Promise.all(
    products.map(({ entry, ...rest }) =>
      context({ ...bundling, ...rest, entryPoints: [entry], minify: production, keepNames: production, sourcemap: !production, metafile: true }),
    ),
  );
  try {
    const results = await Promise.all(contexts.map((each) => each.rebuild()));
    for (const [path, text] of translatedSchemas()) writeFileSync(inRoot(path), text);
    writeNotices(results.flatMap(({ metafile }) => Object.keys(metafile?.inputs ?? {})));
    if (watch) await Promise.all(contexts.map((each) => each.watch()));
  } finally {
    if (!watch) await Promise.all(contexts.map((each) => each.dispose()));
  }
}

if (import.meta.url === pathToFileURL(process.argv[1] ?? '').href) {
  const { values } = parseArgs({ options: { production: { type: 'boolean' }, watch: { type: 'boolean' } } });
  try {
    await build(values);
  } catch (error) {
    console.error(error instanceof Error ? error.message : error);
    process.exitCode = 1;
  }
}
