import {
  CannotOpen,
  checkSize,
  emptySheet,
  openWorkbook,
  ownLimits,
  writeBook,
  type GridHost,
  type Workbook,
} from "../../../src/hosts/index.ts";
import { whyNot } from "../../loading.ts";
import { besideName, bookName, fileName } from "./fileNames.ts";
import { Keeping, type KeepingParts, type OpenBook } from "./keeping.ts";
import type { KeptBook, Shelf } from "./shelf.ts";

/** Why a file was not opened, in words that name it. */
function refusalText(file: string, error: unknown): string {
  if (error instanceof CannotOpen) return `“${file}” was not opened: ${error.message}. Nothing has changed here.`;
  return `“${file}” could not be opened: ${whyNot(error)}. Nothing has changed here.`;
}

/** Why a workbook was not saved. */
function saveFailedText(file: string, error: unknown): string {
  return `“${file}” could not be saved: ${whyNot(error)}. The workbook is as it was.`;
}

/** What is in no file yet, in words; empty where all is. */
export function notSavedText({ book, file }: Pick<BookState, "book" | "file">): string {
  if (book.saved) return "";
  return file === undefined ? "Not saved as a file yet." : `Changes since “${file}” are not saved as a file yet.`;
}

/** What the page says of its workbook. */
export interface BookState {
  readonly book: OpenBook;
  /** When it was last kept in this browser. */
  readonly keptAt?: number;
  /** Why it could not be kept. */
  readonly notKept?: string;
  /** Why the last file was refused, or could not be saved. */
  readonly problem?: string;
  /** What has just happened; gone with the next change. */
  readonly news?: string;
  /** The file that the workbook was opened from or last saved as, in this page. */
  readonly file?: string;
}

export interface BooksParts {
  readonly host: Pick<GridHost, "contents" | "edits" | "onEdited" | "onTrouble" | "open">;
  readonly shelf: Shelf;
  /** Hands a file to whoever sits there. */
  readonly hand: (contents: Uint8Array, name: string) => void;
  /** The workbook open in this page, through a reload. */
  readonly remember: (id: string | undefined) => void;
  /** Another workbook stands in the grid. */
  readonly replaced: () => void;
  readonly newId: () => string;
  readonly now: () => number;
  readonly pause?: KeepingParts["pause"];
}

const emptyBook: Workbook = {
  sheets: [{ name: "Sheet1", ...emptySheet }],
  names: [],
  properties: { creator: "Kernbook" },
};

/** The open workbook: opened, saved, kept. */
export class Books {
  readonly #parts: BooksParts;
  readonly #keeping: Keeping;
  readonly #listeners = new Set<(state: BookState) => void>();
  #state: BookState;

  constructor(parts: BooksParts, name: string) {
    this.#parts = parts;
    const book: OpenBook = { id: parts.newId(), name, saved: true, notUnderstood: [], foreign: false };
    this.#state = { book };
    this.#keeping = new Keeping(
      {
        shelf: parts.shelf,
        contents: () => this.#contents(),
        newId: parts.newId,
        now: parts.now,
        ...(parts.pause !== undefined && { pause: parts.pause }),
        told: (what) => {
          if ("problem" in what) {
            this.#say({ notKept: whyNot(what.problem) });
            return;
          }
          this.#parts.remember(this.#keeping.book.id);
          const { notKept: _, ...rest } = this.#state;
          this.#state = rest;
          this.#say({ keptAt: what.at });
        },
      },
      book,
    );
    parts.host.onTrouble((problem) => this.#say({ problem }));
    parts.host.onEdited(() => {
      this.#keeping.changed();
      const { news: _, ...rest } = this.#state;
      this.#state = rest;
      this.#say({});
    });
  }

  get state(): BookState {
    return this.#state;
  }

  /** Whether the workbook differs from the file it was last saved as. */
  get unsaved(): boolean {
    return !this.#keeping.book.saved;
  }

  onState(listener: (state: BookState) => void): () => void {
    this.#listeners.add(listener);
    return () => this.#listeners.delete(listener);
  }

  /** Opens a file that somebody chose or dropped. */
  async openFile(file: string, contents: Pick<Blob, "size" | "arrayBuffer">): Promise<void> {
    await this.#trying(file, refusalText, async () => {
      checkSize(contents.size);
      const { workbook, notUnderstood } = openWorkbook(new Uint8Array(await contents.arrayBuffer()));
      await this.#replace(workbook);
      const foreign = workbook.properties.creator !== "Kernbook" || notUnderstood.length > 0;
      const book = { id: this.#parts.newId(), name: bookName(file), saved: true, notUnderstood, foreign };
      this.#opened(book, undefined, `“${file}” is open.`);
      this.#say({ file });
      // Kept from the first moment: the page may be reloaded before anything changes.
      this.#keeping.about({});
      await this.#keeping.keep();
    });
  }

  /** Opens a workbook that was kept here. False where it is not there any more. */
  async openKept(kept: KeptBook): Promise<boolean> {
    let there = true;
    await this.#trying(kept.name, refusalText, async () => {
      const contents = await this.#parts.shelf.contents(kept.id);
      if (!contents) {
        there = false;
        throw new CannotOpen("it is no longer kept in this browser");
      }
      const { workbook } = openWorkbook(contents, ownLimits);
      await this.#replace(workbook);
      const { at, ...book } = kept;
      this.#opened(book, at, `“${kept.name}” is open as it was kept here.`);
      this.#say({ keptAt: at });
    });
    return there;
  }

  /** An empty workbook. */
  async start(): Promise<void> {
    await this.#trying("A new workbook", refusalText, async () => {
      await this.#replace(emptyBook);
      this.#opened(
        { id: this.#parts.newId(), name: "Workbook", saved: true, notUnderstood: [], foreign: false },
        undefined,
        "A new workbook is open.",
      );
      this.#parts.remember(undefined);
    });
  }

  kept(): Promise<readonly KeptBook[]> {
    return this.#parts.shelf.list();
  }

  async remove(id: string): Promise<void> {
    await this.#parts.shelf.remove(id);
    this.#say({});
  }

  /** The name under which it is saved next; another one where the file is not to be written over. */
  get proposed(): string {
    const { name, foreign } = this.#keeping.book;
    return foreign ? besideName(name) : name;
  }

  /** Saves it as a file of that name. */
  async save(name = this.#keeping.book.name): Promise<void> {
    await this.#trying(fileName(name), saveFailedText, async () => {
      const { edits } = this.#parts.host;
      const contents = await this.#contents();
      const file = fileName(name);
      this.#parts.hand(contents, file);
      // What was typed while the file was written is not in it.
      const saved = this.#parts.host.edits === edits;
      // From now on it is ours: what its file held beside was said, and stayed in that file.
      this.#keeping.about({ name: bookName(name), saved, foreign: false, notUnderstood: [] });
      this.#say({ file, ...(this.#keeping.book.saved && { news: `Saved as ${file}, among your downloads.` }) });
      await this.#keeping.keep();
    });
  }

  /** Keeps what has changed at once. */
  keep(): Promise<void> {
    return this.#keeping.keep();
  }

  async #contents(): Promise<Uint8Array> {
    return writeBook(await this.#parts.host.contents());
  }

  #opened(book: OpenBook, seen: number | undefined, news: string): void {
    this.#keeping.opened(book, seen);
    this.#state = { book, news };
    this.#parts.remember(seen === undefined ? undefined : book.id);
    this.#parts.replaced();
    this.#say({});
  }

  /** Puts another workbook in the grid once the one that is open is safe. */
  async #replace(workbook: Workbook): Promise<void> {
    await this.#parts.host.open(workbook, async (before) => {
      // A sheet that was being built, or an entry, has changed it since the page was asked to open another.
      await this.#keeping.keep(writeBook(before));
      if (this.unsaved && this.#keeping.waiting)
        throw new CannotOpen("the workbook that is open could not be kept in this browser; save it as a file first");
    });
  }

  async #trying(
    file: string,
    failed: (file: string, error: unknown) => string,
    work: () => Promise<void>,
  ): Promise<void> {
    const { problem: _, news: _news, ...rest } = this.#state;
    this.#state = rest;
    try {
      await work();
    } catch (error) {
      this.#say({ problem: failed(file, error) });
    }
  }

  #say(change: Partial<BookState>): void {
    this.#state = { ...this.#state, ...change, book: this.#keeping.book };
    for (const listener of [...this.#listeners]) listener(this.#state);
  }
}
