import { say } from '../base/messages';
import type { Message } from '../base/messages';

const reasons = {
  ENOENT: 'cli.reason.gone',
  EACCES: 'cli.reason.denied',
  EPERM: 'cli.reason.denied',
  ENOTDIR: 'cli.reason.not-folder',
  ENOSPC: 'cli.reason.no-room',
  EDQUOT: 'cli.reason.no-room',
  EROFS: 'cli.reason.read-only',
  ELOOP: 'cli.reason.loop',
  ERR_FS_FILE_TOO_LARGE: 'cli.reason.too-large',
  ERR_STRING_TOO_LONG: 'cli.reason.too-large',
} as const;

/** Why the system would not do something, in plain words where there are some. */
export function reasonOf(error: unknown): Message {
  const code = (error as NodeJS.ErrnoException | undefined)?.code;
  if (code !== undefined && Object.hasOwn(reasons, code)) return say(reasons[code as keyof typeof reasons]);
  return say('cli.reason.other', error instanceof Error ? error.message : String(error));
}
