/** 0: all is well; 1: errors in the records, or something would change; 2: wrong use, or something can't be read or written. */
export type ExitCode = 0 | 1 | 2;

export interface Output {
  readonly isTerminal: boolean;
  write(text: string): void;
}

/** The world around a run. */
export interface Io {
  readonly out: Output;
  readonly err: Output;
  /** The folder that relative paths are seen from. */
  readonly cwd: string;
  readonly env: Readonly<Record<string, string | undefined>>;
  /** IANA name of the machine's time zone. */
  readonly zone: string;
  /** The clock, ms since 1970-01-01T00:00Z. */
  now(): number;
}

/** This process's own world. A reader that goes away is no failure: what it would still get is dropped. */
export function processIo(): Io {
  return {
    out: outputTo(process.stdout),
    err: outputTo(process.stderr),
    cwd: process.cwd(),
    env: process.env,
    zone: new Intl.DateTimeFormat().resolvedOptions().timeZone,
    now: () => Date.now(),
  };
}

function outputTo(stream: NodeJS.WriteStream): Output {
  let isOpen = true;
  stream.on('error', (error: NodeJS.ErrnoException) => {
    isOpen = false;
    if (error.code === 'EPIPE') return;
    if (stream !== process.stderr) process.stderr.write(`broodsheet: ${error.message}\n`);
    process.exitCode = 2;
  });
  return {
    isTerminal: stream.isTTY,
    write(text) {
      if (isOpen) stream.write(text);
    },
  };
}

const chunk = 65_536;

/** Writes lines, each with its line end, in pieces: neither a call for each line nor one text of them all. */
export function writeLines(output: Output, lines: Iterable<string>): void {
  let pending = '';
  for (const line of lines) {
    pending += `${line}\n`;
    if (pending.length < chunk) continue;
    output.write(pending);
    pending = '';
  }
  if (pending !== '') output.write(pending);
}
