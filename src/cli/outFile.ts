import { readFileSync } from 'node:fs';
import { resolve } from 'node:path';
import { say, textOf } from '../base/messages';
import type { Io } from './io';
import { reasonOf } from './reason';
import { createFile, replaceFile } from './replaceFile';
import { WrongUse } from './wrongUse';

/** The file that a command line names to write into, as it is before. */
export interface OutFile {
  /** As it was named. */
  readonly name: string;
  readonly path: string;
  readonly isThere: boolean;
  /** '' where there is none. */
  readonly text: string;
}

/** Throws WrongUse where something is there that can't be read as a text. */
export function readOut(name: string, { cwd }: Io): OutFile {
  const path = resolve(cwd, name);
  let bytes: Uint8Array;
  try {
    bytes = readFileSync(path);
  } catch (error) {
    if ((error as NodeJS.ErrnoException).code === 'ENOENT') return { name, path, isThere: false, text: '' };
    throw new WrongUse(say('cli.file.unreadable', name, textOf(reasonOf(error))));
  }
  try {
    return { name, path, isThere: true, text: new TextDecoder('utf-8', { fatal: true, ignoreBOM: true }).decode(bytes) };
  } catch {
    throw new WrongUse(say('cli.out.foreign', name));
  }
}

/** Writes the file as a whole or not at all; not at all where it holds the text already. Throws WrongUse where that fails, or somebody else has changed it. */
export function putOut({ name, path, isThere, text: before }: OutFile, after: string): 'written' | 'same' {
  if (isThere && before === after) return 'same';
  let isDone: boolean;
  try {
    isDone = isThere ? replaceFile(path, { before, after }) : createFile(path, after);
  } catch (error) {
    throw new WrongUse(say('cli.file.unwritable', name, textOf(reasonOf(error))));
  }
  if (!isDone) throw new WrongUse(say('cli.out.changed', name));
  return 'written';
}
