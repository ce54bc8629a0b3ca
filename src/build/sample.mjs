import { cpSync, existsSync, mkdirSync, mkdtempSync, readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { dirname, join, relative, sep } from 'node:path';
import { inRoot } from './paths.mjs';

/** The moment that the samples are written for. */
export const sampleNow = '2026-06-10T09:00';

/** The sample that looks like a real room. */
export const defaultSample = 'three-rooms';

/**
 * Copies a sample to a scratch folder and gives its path. In the editor its clock stands at `now`, or goes on its own without one.
 * @param {{ sample: string, now?: string }} options
 */
export function copySample({ sample, now }) {
  const source = inRoot('samples', sample);
  if (!existsSync(source)) throw new Error(`there is no sample ${sample}`);
  const folder = join(mkdtempSync(join(tmpdir(), 'broodsheet-sample-')), sample);
  cpSync(source, folder, { recursive: true });
  if (now !== undefined) {
    mkdirSync(join(folder, '.vscode'), { recursive: true });
    writeFileSync(join(folder, SETTINGS), clockAt(now));
  }
  return folder;
}

const SETTINGS = '.vscode/settings.json';

/** Settings of a folder in which the clock stands. @param {string} now */
function clockAt(now) {
  return `${JSON.stringify({ 'broodsheet.now': now }, null, 2)}\n`;
}

/**
 * Writes the sample that the extension hands out into one file: its name and the texts of its files by their paths, with the clock at its own day. Throws
 * for a file that isn't UTF-8.
 * @param {string} target
 */
export function packSample(target) {
  const source = inRoot('samples', defaultSample);
  const decoder = new TextDecoder('utf-8', { fatal: true, ignoreBOM: true });
  const paths = readdirSync(source, { recursive: true, withFileTypes: true }).filter((entry) => entry.isFile());
  const texts = paths.map((entry) => {
    const path = join(entry.parentPath, entry.name);
    return [relative(source, path).replaceAll(sep, '/'), decoder.decode(readFileSync(path))];
  });
  const files = Object.fromEntries([...texts.sort(([a = ''], [b = '']) => (a < b ? -1 : 1)), [SETTINGS, clockAt(sampleNow)]]);
  mkdirSync(dirname(target), { recursive: true });
  writeFileSync(target, JSON.stringify({ name: defaultSample, files }));
}
