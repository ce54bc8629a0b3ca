import { cpSync, mkdirSync, mkdtempSync, readdirSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';

const here = dirname(fileURLToPath(import.meta.url));
const sources = [join(here, 'fixtures'), join(here, '../../samples')];

/**
 * A folder to work in: copies of every fishroom of test/host/fixtures and of samples, each under its own name; or of the named ones alone. `settings` are the
 * folder's own. With `inside` the folder is the one of that name alone, without those beside it. remove() deletes all of it.
 * @param {{ only?: readonly string[], settings?: Readonly<Record<string, unknown>>, inside?: string }} [options]
 * @returns {{ folder: string, remove: () => void }}
 */
export function makeWorkspace({ only, settings, inside = '' } = {}) {
  const all = mkdtempSync(join(tmpdir(), 'broodsheet-workspace-'));
  const rooms = sources.flatMap((source) =>
    readdirSync(source, { withFileTypes: true })
      .filter((entry) => entry.isDirectory())
      .map(({ name }) => ({ name, path: join(source, name) })),
  );
  const missing = only?.filter((name) => !rooms.some((room) => room.name === name)) ?? [];
  if (missing.length > 0) throw new Error(`there is no fixture or sample ${missing.join(', ')}`);
  for (const { name, path } of rooms) {
    if (!only || only.includes(name)) cpSync(path, join(all, name), { recursive: true });
  }
  const folder = join(all, inside);
  if (settings) {
    mkdirSync(join(folder, '.vscode'));
    writeFileSync(join(folder, '.vscode/settings.json'), JSON.stringify(settings, null, 2));
  }
  return { folder, remove: () => rmSync(all, { recursive: true, force: true, maxRetries: 10, retryDelay: 100 }) };
}
