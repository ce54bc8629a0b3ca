import { cpSync, existsSync, mkdirSync, mkdtempSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
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
    writeFileSync(join(folder, '.vscode/settings.json'), `${JSON.stringify({ 'broodsheet.now': now }, null, 2)}\n`);
  }
  return folder;
}
