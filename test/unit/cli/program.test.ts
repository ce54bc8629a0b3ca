import { deepStrictEqual, equal, ok } from 'node:assert/strict';
import { spawn, spawnSync } from 'node:child_process';
import type { ChildProcess } from 'node:child_process';
import { openSync, statSync } from 'node:fs';
import { setTimeout as delay } from 'node:timers/promises';
import { build } from 'esbuild';
import { Scratch } from '../../support/commandLine';
import type { Files } from '../../support/commandLine';

const config = '{"timezone":"UTC"}';
const now = ['--now', '2026-03-10T12:00'] as const;

/** So many problems that no pipe holds them at once. */
const manyProblems = `clutch,species,tank,spawned\n${'K1,kribensis,T1,never\n'.repeat(4000)}`;

describe('the program', () => {
  const program = new Scratch();
  let scratch: Scratch;
  before(() =>
    build({ entryPoints: ['src/cli/main.ts'], outfile: program.at('cli.js'), bundle: true, platform: 'node', format: 'cjs', mainFields: ['module', 'main'], loader: { '.csv': 'text' }, logLevel: 'warning' }),
  );
  after(() => program.remove());
  beforeEach(() => (scratch = new Scratch({ 'fishroom.json': config })));
  afterEach(() => scratch.remove());

  const start = (argv: readonly string[]): ChildProcess => spawn(process.execPath, [program.at('cli.js'), ...argv], { cwd: scratch.path, stdio: ['ignore', 'pipe', 'pipe'] });
  const end = (child: ChildProcess): Promise<{ readonly code: number | null; readonly signal: string | null }> =>
    new Promise((resolve) => child.once('close', (code, signal) => resolve({ code, signal })));
  const whole = (argv: readonly string[]): { readonly status: number | null; readonly stdout: string; readonly stderr: string } =>
    spawnSync(process.execPath, [program.at('cli.js'), ...argv], { cwd: scratch.path, encoding: 'utf8', maxBuffer: 1e9 });

  it('exits as it was told to', () => {
    scratch.add({ 'clutches.csv': 'clutch,species,tank,spawned\nK1,kribensis,T1,2026-03-01\n' });
    equal(whole(['check', ...now]).status, 0);
    scratch.add({ 'clutches.csv': 'clutch,species,tank,spawned\nK1,kribensis,T1,never\n' });
    equal(whole(['check', ...now]).status, 1);
    const { status, stdout, stderr } = whole(['chek']);
    deepStrictEqual({ status, stdout, stderr }, { status: 2, stdout: '', stderr: 'broodsheet: There is no command chek. Did you mean check?\n' });
  });

  it('works in a time zone that it finds in the environment', () => {
    scratch.add({ 'fishroom.json': '', 'clutches.csv': 'clutch,species,tank,spawned\nK1,kribensis,T1,2026-03-01\n' });
    const { stdout } = spawnSync(process.execPath, [program.at('cli.js'), 'check'], { cwd: scratch.path, encoding: 'utf8', env: { ...process.env, TZ: 'Asia/Tokyo' } });
    ok(stdout.includes('(Asia/Tokyo)'), stdout);
  });

  it('writes all of a long answer to a slow reader', async () => {
    scratch.add({ 'clutches.csv': manyProblems });
    const child = start(['check', '--format', 'json', ...now]);
    const ended = end(child);
    await delay(300);
    let out = '';
    for await (const text of (child.stdout ?? []) as AsyncIterable<Buffer>) {
      out += text.toString('utf8');
      await delay(1);
    }
    deepStrictEqual(await ended, { code: 1, signal: null });
    const { fishrooms } = JSON.parse(out) as { fishrooms: { problems: { code: string }[] }[] };
    equal(fishrooms[0]?.problems.filter(({ code }) => code === 'value-type').length, 4000);
  });

  it('ends quietly when its reader goes away', async () => {
    scratch.add({ 'clutches.csv': manyProblems });
    for (const format of ['text', 'json']) {
      const child = start(['check', '--format', format, ...now]);
      let err = '';
      child.stderr?.on('data', (text: Buffer) => (err += text.toString('utf8')));
      child.stdout?.once('data', () => child.stdout?.destroy());
      deepStrictEqual([await end(child), err], [{ code: 1, signal: null }, '']);
    }
  });

  it('writes all files although nobody reads what it says', async () => {
    scratch.add(manyClutches(40));
    const child = start(['fill', '--write', '--format', 'json', ...now]);
    child.stdout?.destroy();
    deepStrictEqual(await end(child), { code: 0, signal: null });
    equal(whole(['fill', ...now]).status, 0);
  });

  it('says so when its answer can not be written', () => {
    scratch.add({ 'clutches.csv': manyProblems });
    const full = openSync('/dev/full', 'w');
    const { status, stderr } = spawnSync(process.execPath, [program.at('cli.js'), 'check', ...now], { cwd: scratch.path, encoding: 'utf8', stdio: ['ignore', full, 'pipe'] });
    equal(status, 2);
    ok(stderr.includes('ENOSPC'), stderr);
  });

  it('leaves every file old or new when it is killed', async () => {
    const old = manyClutches(120);
    const sheets = Object.keys(old).filter((path) => path.endsWith('.csv')).sort();
    scratch.add(old);
    equal(whole(['fill', '--write', ...now]).status, 0);
    const filled = new Map(sheets.map((path) => [path, scratch.text(path)]));
    let killedBetween = 0;
    for (let attempt = 0; attempt < 6; attempt++) {
      scratch.remove();
      scratch = new Scratch(old);
      // They are written in the order of their names, so any of them marks a moment.
      const mark = sheets[Math.floor(Math.random() * sheets.length * 0.8)] as string;
      await killed(start(['fill', '--write', ...now]), () => scratch.text(mark) !== old[mark]);
      const changed = sheets.filter((path) => scratch.text(path) !== old[path]);
      for (const path of changed) equal(scratch.text(path), filled.get(path), path);
      if (changed.length < sheets.length) killedBetween++;
      deepStrictEqual(scratch.paths().filter((path) => path.endsWith('.csv')), sheets);
    }
    ok(killedBetween > 0, 'it was never killed before the last file');
    // What it left is in nobody's way.
    equal(whole(['fill', '--write', ...now]).status, 0);
    deepStrictEqual(new Map(sheets.map((path) => [path, scratch.text(path)])), filled);
  });

  it('leaves a sheet old or new when it is killed while writing it', async () => {
    const sheet = (age: string): string => `clutch,species,tank,spawned,note,age_days\nK1,kribensis,T1,2026-03-01,${'so much to say '.repeat(2_000_000)},${age}\n`;
    let killedWithin = 0;
    for (let attempt = 0; attempt < 4; attempt++) {
      scratch.remove();
      scratch = new Scratch({ 'fishroom.json': config, 'clutches.csv': sheet('') });
      const { size, mtimeMs } = statSync(scratch.at('clutches.csv'));
      const isTouched = (): boolean => {
        const file = statSync(scratch.at('clutches.csv'));
        return file.size !== size || file.mtimeMs !== mtimeMs;
      };
      // At the first trace of what is written, and at the first trace in the sheet itself.
      await killed(start(['fill', '--write', ...now]), attempt % 2 === 0 ? () => scratch.paths().length > 2 || isTouched() : isTouched);
      if (scratch.paths().length > 2) killedWithin++;
      const text = scratch.text('clutches.csv');
      ok(text === sheet('') || text === sheet('9'), `${text.length} characters, neither old nor new`);
      deepStrictEqual(scratch.paths().filter((path) => path.endsWith('.csv')), ['clutches.csv']);
    }
    ok(killedWithin > 0, 'it was never killed within a sheet');
  });

  /** Kills a process as soon as something is so. */
  const killed = async (child: ChildProcess, isSo: () => boolean): Promise<void> => {
    const ended = end(child);
    const deadline = Date.now() + 60_000;
    while (!isSo()) {
      if (Date.now() > deadline || child.exitCode !== null) throw new Error('the moment to kill it never came');
      await delay(1);
    }
    child.kill('SIGKILL');
    await ended;
  };
});

function manyClutches(count: number): Files {
  const ids = Array.from({ length: count }, (_, i) => `K${i}`);
  const rows = ids.map((id) => `${id},kribensis,T1,2026-03-01,,`);
  const logs = ids.map((id) => [`clutches/${id}.csv`, 'time,event,count,age_days,stage,alive\n2026-03-02T10:00,checked,,,,\n2026-03-05,counted,20,,,\n']);
  return { 'fishroom.json': config, 'clutches.csv': ['clutch,species,tank,spawned,age_days,stage', ...rows, ''].join('\n'), ...Object.fromEntries(logs) as Files };
}
