import { say, textOf } from '../base/messages';
import type { Message } from '../base/messages';
import type { Io } from './io';
import { visible } from './text';

/** Tells what went wrong where it doesn't mix with the result. */
export function complain({ err }: Io, message: Message): void {
  const [first = '', ...rest] = textOf(message).split('\n');
  const lines = [textOf(say('cli.complaint', visible(first))), ...rest.map((line) => visible(line))];
  err.write(`${lines.join('\n')}\n`);
}
