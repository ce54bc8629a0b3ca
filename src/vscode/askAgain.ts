import * as vscode from 'vscode';
import type { Fishrooms } from './fishrooms';
import { JoinedTask } from './joinedTask';

/** Long enough to join quick typing. What is shown beside a text may lag behind it a little; what moves while one types is in the way. */
const JOIN_CHANGES = 250;

/** Tells that what hangs on the records may be another now, bursts joined: records and clock change elsewhere than in the text that is looked at. */
export class AskAgain implements vscode.Disposable {
  readonly #emitter = new vscode.EventEmitter<void>();
  readonly #joined: JoinedTask;
  readonly #listeners: vscode.Disposable;

  readonly onDidChange = this.#emitter.event;

  constructor(fishrooms: Fishrooms) {
    this.#joined = new JoinedTask(fishrooms.activity, { delay: JOIN_CHANGES, work: () => this.#emitter.fire() });
    this.#listeners = vscode.Disposable.from(
      fishrooms.onDidChange(() => this.#joined.trigger()),
      fishrooms.onDidRemove(() => this.#joined.trigger()),
    );
  }

  dispose(): void {
    this.#listeners.dispose();
    this.#joined.dispose();
    this.#emitter.dispose();
  }

  /** Asks at the next occasion, for what isn't told by the records. */
  trigger(): void {
    this.#joined.trigger();
  }
}
