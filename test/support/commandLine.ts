import { mkdirSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import { run } from '../../src/cli/main';
import type { ExitCode, Io } from '../../src/cli/io';

/** Texts or bytes by path. */
export type Files = Readonly<Record<string, string | Uint8Array>>;

/** A folder on disk for one test. */
export class Scratch {
  readonly path: string;

  constructor(files: Files = {}) {
    this.path = mkdtempSync(join(tmpdir(), 'broodsheet-test-'));
    this.add(files);
  }

  add(files: Files): void {
    for (const [path, content] of Object.entries(files)) {
      mkdirSync(dirname(this.at(path)), { recursive: true });
      writeFileSync(this.at(path), content);
    }
  }

  at(...parts: readonly string[]): string {
    return join(this.path, ...parts);
  }

  text(path: string): string {
    return readFileSync(this.at(path), 'utf8');
  }

  /** Every file, in the order of the paths. */
  paths(): readonly string[] {
    const entries = readdirSync(this.path, { recursive: true, withFileTypes: true });
    return entries
      .filter((entry) => !entry.isDirectory())
      .map((entry) => join(entry.parentPath, entry.name).slice(this.path.length + 1))
      .sort();
  }

  remove(): void {
    rmSync(this.path, { recursive: true, force: true });
  }
}

export interface Ran {
  readonly code: ExitCode;
  readonly out: string;
  readonly err: string;
}

/** Noon of 2026-03-10 in UTC, which the machine's clock stands at. */
export const testNow = Date.UTC(2026, 2, 10, 12);

/** Runs a command line in this process, as if in `cwd`. */
export async function runIn(cwd: string, argv: readonly string[], world: Partial<Omit<Io, 'out' | 'err' | 'cwd'>> & { readonly isTerminal?: boolean } = {}): Promise<Ran> {
  let out = '';
  let err = '';
  const { isTerminal = false, ...rest } = world;
  const code = await run(argv, {
    out: { isTerminal, write: (text) => void (out += text) },
    err: { isTerminal, write: (text) => void (err += text) },
    cwd,
    env: {},
    zone: 'UTC',
    now: () => testNow,
    ...rest,
  });
  return { code, out, err };
}
