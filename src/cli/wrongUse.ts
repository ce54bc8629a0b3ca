import type { Message } from '../base/messages';
import { textOf } from '../base/messages';

/** What was asked for can't be done as it was asked: told to the person who asked, exit 2. */
export class WrongUse extends Error {
  readonly told: Message;

  constructor(told: Message) {
    super(textOf(told));
    this.told = told;
  }
}
