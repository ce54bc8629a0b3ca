import { spawnSync } from 'node:child_process';
import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import Papa from 'papaparse';
import { readRooms } from '../../src/cli/rooms';
import type { Plan } from '../../src/planner/plan';
import { benchNow, benchZone } from './house';

/** Writes texts to a folder of their own that goes away with this process. */
export function onDisk(texts: ReadonlyMap<string, string>): string {
  const folder = mkdtempSync(join(tmpdir(), 'broodsheet-bench-'));
  process.on('exit', () => rmSync(folder, { recursive: true, force: true }));
  for (const [path, text] of texts) {
    mkdirSync(dirname(join(folder, path)), { recursive: true });
    writeFileSync(join(folder, path), text);
  }
  return folder;
}

const silent = { isTerminal: false, write: (): void => undefined };

/** Reads a folder as the command line does. */
export async function planFromDisk(folder: string): Promise<Plan> {
  const io = { out: silent, err: silent, cwd: folder, env: {}, zone: benchZone, now: (): number => 0 };
  const { rooms } = await readRooms([folder], { now: benchNow, io });
  const plan = rooms[0]?.plan;
  if (plan === undefined) throw new Error(`no fishroom in ${folder}`);
  return plan;
}

/** A whole fill of a folder but for the writing; gives how many cells would change. */
export async function fill(folder: string): Promise<number> {
  const plan = await planFromDisk(folder);
  let changes = 0;
  for (const path of plan.paths()) changes += plan.fills(path).changes.length;
  return changes;
}

/** The unit of all ratios: what papaparse takes for the same texts, from memory, into arrays. */
export function parseAll(texts: Iterable<string>): number {
  let rows = 0;
  for (const text of texts) rows += Papa.parse<string[]>(text).data.length;
  return rows;
}

/** Most memory that a process takes which does nothing but one fill of a folder, in MiB. */
export function peakOfFill(folder: string): number {
  const { stdout, stderr, status } = spawnSync(process.execPath, [process.argv[1] as string, peakFlag, folder], { encoding: 'utf8' });
  if (status !== 0) throw new Error(stderr);
  return Number(stdout);
}

const peakFlag = '--peak-of-fill';

/** Runs a bench, unless this is the process that `peakOfFill` starts: that one does the fill alone, and prints the peak. */
export async function bench(run: () => Promise<void>): Promise<void> {
  if (process.argv[2] !== peakFlag) return run();
  await fill(process.argv[3] as string);
  console.log(process.resourceUsage().maxRSS / 1024);
}
