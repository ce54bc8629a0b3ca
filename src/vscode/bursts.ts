import type { Disposable } from 'vscode';

/** Notices that many events came one upon the other, as soon as they have ceased. */
export class Bursts implements Disposable {
  readonly #many: number;
  readonly #quiet: number;
  readonly #onOver: () => void;
  #count = 0;
  #isWaiting = false;
  #timer?: ReturnType<typeof setTimeout>;

  /** @param quiet ms without an event after which a burst is over */
  constructor({ many, quiet, onOver }: { readonly many: number; readonly quiet: number; readonly onOver: () => void }) {
    this.#many = many;
    this.#quiet = quiet;
    this.#onOver = onOver;
  }

  tell(): void {
    this.#count++;
    if (!this.#isWaiting) this.#wait();
  }

  dispose(): void {
    clearTimeout(this.#timer);
  }

  #wait(): void {
    const before = this.#count;
    this.#isWaiting = true;
    this.#timer = setTimeout(() => {
      this.#isWaiting = false;
      if (this.#count > before) {
        this.#wait();
        return;
      }
      this.#count = 0;
      if (before >= this.#many) this.#onOver();
    }, this.#quiet);
  }
}
