/**
 * Work that waits for its turn: at most one piece for each key, run once the messages that have already arrived are
 * dealt with. A key that is asked for again while it waits goes on waiting, so that a burst costs one run. There is no
 * pause that a person could feel: two turns of the event loop.
 */
export class Pending {
  readonly #run: (key: string) => void;
  readonly #waiting = new Map<string, ReturnType<typeof setTimeout>>();

  constructor(run: (key: string) => void) {
    this.#run = run;
  }

  ask(key: string): void {
    this.cancel(key);
    // In a worker, messages take turns with timers; the second turn lets a message that is waiting go first.
    this.#wait(key, () => this.#wait(key, () => this.#done(key)));
  }

  cancel(key: string): void {
    clearTimeout(this.#waiting.get(key));
    this.#waiting.delete(key);
  }

  #wait(key: string, next: () => void): void {
    this.#waiting.set(key, setTimeout(next, 0));
  }

  #done(key: string): void {
    this.#waiting.delete(key);
    this.#run(key);
  }
}
