import { say } from '../base/messages';
import type { Message } from '../base/messages';

/** What is said where something is shown in which sheets are missing, since they could never be read; undefined where none are. */
export function unreadMessage(paths: readonly string[]): Message | undefined {
  const [path, ...more] = paths;
  if (path === undefined) return undefined;
  return more.length === 0 ? say('due.unread', path) : say('due.unread.several', paths.length, paths.join(', '));
}
