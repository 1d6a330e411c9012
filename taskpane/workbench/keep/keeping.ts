import type { KeptBook, Shelf } from "./shelf.ts";

/** The workbook that is open, as it is to be kept. */
export interface OpenBook {
  readonly id: string;
  readonly name: string;
  readonly saved: boolean;
  readonly notUnderstood: readonly string[];
  readonly foreign: boolean;
}

export interface KeepingParts {
  readonly shelf: Shelf;
  /** The contents of the open workbook as a file. */
  readonly contents: () => Promise<Uint8Array>;
  readonly newId: () => string;
  readonly now: () => number;
  /** Told when something was kept, or could not be. */
  readonly told: (state: { readonly at: number } | { readonly problem: unknown }) => void;
  /** How long nothing must change before it is kept, and how long at most it waits, in milliseconds. */
  readonly pause?: number;
  readonly longest?: number;
}

/** Keeps the open workbook shortly after each change. */
export class Keeping {
  readonly #parts: KeepingParts;
  readonly #pause: number;
  readonly #longest: number;
  #book: OpenBook;
  /** When the workbook was kept by this page; undefined where it has not been yet. */
  #seen: number | undefined;
  #changes = 0;
  #kept = 0;
  #firstChange = 0;
  #timer: ReturnType<typeof setTimeout> | undefined;
  #running: Promise<void> | undefined;
  /** Hands contents to what waits for the workbook's own. */
  #instead: ((contents: Uint8Array) => void) | undefined;

  constructor(parts: KeepingParts, book: OpenBook, seen?: number) {
    this.#parts = parts;
    this.#book = book;
    this.#seen = seen;
    this.#pause = parts.pause ?? 2_000;
    this.#longest = parts.longest ?? 15_000;
  }

  get book(): OpenBook {
    return this.#book;
  }

  /** Changes that are kept nowhere yet. */
  get waiting(): boolean {
    return this.#changes !== this.#kept;
  }

  /** Something in the workbook has changed: it differs from its file, and is kept soon. */
  changed(): void {
    this.#book = { ...this.#book, saved: false };
    this.#soon();
  }

  /** The name of the workbook or its notes have changed. */
  about(change: Partial<Omit<OpenBook, "id">>): void {
    this.#book = { ...this.#book, ...change };
    this.#soon();
  }

  /** Another workbook is open from now on. */
  opened(book: OpenBook, seen?: number): void {
    clearTimeout(this.#timer);
    this.#timer = undefined;
    this.#book = book;
    this.#seen = seen;
    this.#kept = this.#changes;
  }

  /**
   * Keeps what has changed at once; resolves when nothing waits any more, or when it could not be kept. `contents`:
   * the workbook as it is, from whoever holds its turn; to wait for that turn would never end.
   */
  async keep(contents?: Uint8Array): Promise<void> {
    clearTimeout(this.#timer);
    this.#timer = undefined;
    // One after the other: whoever comes while it is being written finds nothing waiting any more, or writes what is new.
    while (this.#running) {
      if (contents) this.#instead?.(contents);
      await this.#running;
    }
    if (!this.waiting) return;
    this.#running = this.#write(contents).finally(() => (this.#running = undefined));
    await this.#running;
  }

  #soon(): void {
    const now = this.#parts.now();
    if (!this.waiting) this.#firstChange = now;
    this.#changes++;
    clearTimeout(this.#timer);
    const wait = Math.max(0, Math.min(this.#pause, this.#firstChange + this.#longest - now));
    this.#timer = setTimeout(() => void this.keep(), wait);
  }

  #contents(): Promise<Uint8Array> {
    const instead = new Promise<Uint8Array>((resolve) => (this.#instead = resolve));
    return Promise.race([this.#parts.contents(), instead]).finally(() => (this.#instead = undefined));
  }

  async #write(given: Uint8Array | undefined): Promise<void> {
    const changes = this.#changes;
    try {
      const contents = given ?? (await this.#contents());
      const at = this.#parts.now();
      if (!(await this.#put(contents, at))) {
        // Another page has kept its own state of this workbook since: both stay, each under an id of its own.
        this.#book = { ...this.#book, id: this.#parts.newId() };
        this.#seen = undefined;
        await this.#put(contents, at);
      }
      this.#kept = changes;
      this.#parts.told({ at });
    } catch (problem) {
      this.#parts.told({ problem });
      this.#later();
    }
  }

  /** Tries again by itself what could not be kept, unless a change does so before or another workbook is open. */
  #later(): void {
    if (!this.waiting || this.#timer !== undefined) return;
    this.#timer = setTimeout(() => void this.keep(), this.#longest);
  }

  async #put(contents: Uint8Array, at: number): Promise<boolean> {
    const kept: KeptBook = { ...this.#book, at };
    const written = await this.#parts.shelf.put(kept, contents, this.#seen);
    if (written) this.#seen = at;
    return written;
  }
}
