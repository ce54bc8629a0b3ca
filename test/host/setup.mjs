// Makes the installed server startable without the install scripts of its package, which compile and download. Run after `npm ci` in this folder.
import { cpSync, readdirSync, rmSync, symlinkSync } from 'node:fs';
import { dirname, join, relative } from 'node:path';
import { fileURLToPath } from 'node:url';

const here = dirname(fileURLToPath(import.meta.url));
const modules = join(here, 'node_modules');
const server = join(modules, 'code-server/lib/vscode');

/** The built-in extensions that a fishroom's folder needs; the rest want accounts, native modules or the network, or only slow the start. */
const keptExtensions = /^(configuration-editing|json|json-language-features|markdown-basics|media-preview|merge-conflict|references-view|search-result|theme-.*)$/;

for (const stub of readdirSync(join(here, 'stubs'))) {
  const folder = join(modules, '@vscode', stub);
  rmSync(folder, { recursive: true, force: true });
  cpSync(join(here, 'stubs', stub), folder, { recursive: true });
}

for (const entry of readdirSync(join(server, 'extensions'), { withFileTypes: true })) {
  if (entry.isDirectory() && !keptExtensions.test(entry.name)) rmSync(join(server, 'extensions', entry.name), { recursive: true });
}

// The link comes last: where it stands, the set-up is complete (src/build/install.mjs looks for it).
const link = join(server, 'node_modules');
rmSync(link, { recursive: true, force: true });
symlinkSync(relative(server, modules), link, 'junction');
