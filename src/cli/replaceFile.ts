import { randomUUID } from 'node:crypto';
import { accessSync, closeSync, constants, copyFileSync, fchmodSync, fchownSync, fsyncSync, linkSync, openSync, readFileSync, realpathSync, renameSync, statSync, unlinkSync, writeFileSync } from 'node:fs';
import type { Stats } from 'node:fs';
import { basename, dirname, join } from 'node:path';

/**
 * Replaces a file's text as a whole: whoever looks, and whenever this process dies, finds the old or the new one. Links
 * stay links, permissions and, where the system allows it, the owner stay as they were. Returns false, and leaves it
 * alone, when the file doesn't hold `before` any more. Throws what the system says when it can't be written; the old text
 * stands then.
 */
export function replaceFile(path: string, { before, after }: { readonly before: string; readonly after: string }): boolean {
  const target = realpathSync(path);
  // A new file could take the place of one that is write-protected.
  accessSync(target, constants.W_OK);
  const temporary = temporaryFor(target);
  try {
    writeLike(statSync(target), temporary, after);
    if (!readFileSync(target).equals(Buffer.from(before, 'utf8'))) {
      unlinkSync(temporary);
      return false;
    }
    renameSync(temporary, target);
  } catch (error) {
    remove(temporary);
    throw error;
  }
  return true;
}

/**
 * Writes a file that isn't there, as a whole or not at all. Returns false, and leaves alone what is there, when somebody else was quicker. Throws what the
 * system says when it can't be written.
 */
export function createFile(path: string, text: string): boolean {
  const temporary = temporaryFor(path);
  try {
    writeFileSync(temporary, text, { encoding: 'utf8', flag: 'wx', flush: true });
    try {
      // A rename would put it in the place of another.
      linkSync(temporary, path);
    } catch (error) {
      if (codeOf(error) === 'EEXIST') return false;
      // Some disks know no links.
      copyFileSync(temporary, path, constants.COPYFILE_EXCL);
    }
  } catch (error) {
    if (codeOf(error) === 'EEXIST') return false;
    throw error;
  } finally {
    remove(temporary);
  }
  return true;
}

function codeOf(error: unknown): string | undefined {
  return (error as NodeJS.ErrnoException | undefined)?.code;
}

/**
 * Beside the target, for a rename only replaces at once within one disk. Hidden and no `.csv`, so that it never counts as
 * a sheet; a name of its own, so that what a killed process left is in nobody's way, and short enough for any disk.
 */
function temporaryFor(target: string): string {
  return join(dirname(target), `.${basename(target).slice(0, 60)}.${randomUUID()}.tmp`);
}

function writeLike({ mode, uid, gid }: Stats, path: string, text: string): void {
  const file = openSync(path, 'wx', mode & 0o600);
  try {
    writeFileSync(file, text, 'utf8');
    try {
      fchownSync(file, uid, gid);
    } catch {
      // Only the superuser may give files away.
    }
    // After the owner: changing that takes some permissions away.
    fchmodSync(file, mode & 0o7777);
    fsyncSync(file);
  } finally {
    closeSync(file);
  }
}

function remove(path: string): void {
  try {
    unlinkSync(path);
  } catch {
    // It was never made, or the system doesn't let go of it: it's no sheet in any case.
  }
}
