/** Work that is under way or about to begin, so that one can wait for the end of all of it. */
export class Activity {
  #running = 0;
  #waiting: (() => void)[] = [];

  begin(): void {
    this.#running++;
  }

  end(): void {
    if (this.#running === 0) throw new Error('more work ended than began');
    this.#running--;
    if (this.#running > 0) return;
    const waiting = this.#waiting;
    this.#waiting = [];
    for (const resolve of waiting) resolve();
  }

  /** Resolves at the next moment at which nothing is under way, at once where that is now. */
  whenIdle(): Promise<void> {
    if (this.#running === 0) return Promise.resolve();
    return new Promise((resolve) => this.#waiting.push(resolve));
  }
}
