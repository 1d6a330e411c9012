/** Lets work happen one after the other, in the order it was asked for. */
export class Turns {
  #last: Promise<unknown> = Promise.resolve();

  take<T>(work: () => Promise<T>): Promise<T> {
    const mine = this.#last.then(work);
    // Only the order depends on the work before; whoever asked for it hears of its failure.
    this.#last = mine.then(
      () => undefined,
      () => undefined,
    );
    return mine;
  }
}
