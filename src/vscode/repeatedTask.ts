import type { Disposable } from 'vscode';

/** The next time is put off by so many times as long as it took, so that it takes only that part of a machine, */
const REST = 20;
/** but by no more ms than this: a machine that was busy with other things isn't for long. */
const LONGEST_REST = 30_000;

/** Work that is done again and again for as long as there is something to do, with a rest in between. */
export class RepeatedTask implements Disposable {
  readonly #rest: number;
  readonly #work: () => Promise<'again' | 'done'>;
  #timer?: ReturnType<typeof setTimeout>;
  #nextAt = Infinity;
  #isWorking = false;
  #isAskedAgain = false;
  #isDisposed = false;

  /** @param rest the least ms from the end of one time to the next */
  constructor({ rest, work }: { readonly rest: number; readonly work: () => Promise<'again' | 'done'> }) {
    this.#rest = rest;
    this.#work = work;
  }

  /** Begins, or cuts a longer rest short. */
  start(): void {
    this.#isAskedAgain = this.#isWorking;
    if (!this.#isWorking) this.#wait(this.#rest);
  }

  dispose(): void {
    this.#isDisposed = true;
    clearTimeout(this.#timer);
  }

  #wait(ms: number): void {
    const at = Date.now() + ms;
    if (this.#isDisposed || at >= this.#nextAt) return;
    clearTimeout(this.#timer);
    this.#nextAt = at;
    this.#timer = setTimeout(() => void this.#run(), ms);
  }

  async #run(): Promise<void> {
    const begun = Date.now();
    this.#nextAt = Infinity;
    this.#isWorking = true;
    let outcome: 'again' | 'done' = 'again';
    try {
      outcome = await this.#work();
    } catch (error) {
      // Nobody waits for it, so the host's log is the only place to tell.
      console.error(error);
    }
    this.#isWorking = false;
    if (this.#isAskedAgain) this.start();
    else if (outcome === 'again') this.#wait(Math.min(Math.max(this.#rest, REST * (Date.now() - begun)), LONGEST_REST));
  }
}
