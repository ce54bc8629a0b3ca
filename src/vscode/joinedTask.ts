import type { Disposable } from 'vscode';
import type { Activity } from './activity';

type State = 'idle' | 'waiting' | 'running' | 'running and asked again' | 'disposed';

/**
 * Work that is asked for in bursts: it runs once, `delay` ms after the first time it was asked for, so that a long burst can't put it off for ever. It
 * never runs twice at the same time; asked for while it runs, it runs again afterwards.
 */
export class JoinedTask implements Disposable {
  readonly #activity: Activity;
  readonly #delay: number;
  readonly #work: () => void | Promise<void>;
  #state: State = 'idle';
  #timer: unknown;

  constructor(activity: Activity, { delay, work }: { readonly delay: number; readonly work: () => void | Promise<void> }) {
    this.#activity = activity;
    this.#delay = delay;
    this.#work = work;
  }

  trigger(): void {
    if (this.#state === 'idle') {
      this.#activity.begin();
      this.#wait();
    } else if (this.#state === 'running') {
      this.#state = 'running and asked again';
    }
  }

  dispose(): void {
    if (this.#state === 'waiting') {
      clearTimeout(this.#timer);
      this.#activity.end();
    }
    this.#state = 'disposed';
  }

  #wait(): void {
    this.#state = 'waiting';
    this.#timer = setTimeout(() => void this.#run(), this.#delay);
  }

  async #run(): Promise<void> {
    this.#state = 'running';
    try {
      await this.#work();
    } catch (error) {
      // Nobody waits for it, so the host's log is the only place to tell.
      console.error(error);
    }
    if (this.#stateNow() === 'running and asked again') {
      this.#wait();
      return;
    }
    if (this.#stateNow() === 'running') this.#state = 'idle';
    this.#activity.end();
  }

  /** The state as others may have left it meanwhile, which the compiler can't see. */
  #stateNow(): State {
    return this.#state;
  }
}
