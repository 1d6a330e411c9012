import { h, render, type ComponentChildren } from "preact";
import { useEffect, useRef, useState } from "preact/hooks";
import { whyNot } from "../../loading.ts";
import { fileName } from "./fileNames.ts";
import { notSavedText, type Books, type BookState } from "./books.ts";
import type { KeptBook } from "./shelf.ts";

const time = (at: number): string =>
  new Date(at).toLocaleString("en-GB", {
    day: "numeric",
    month: "short",
    year: "numeric",
    hour: "2-digit",
    minute: "2-digit",
  });

/** Whether the workbook is safe, in words. */
function KeptText({ state }: { readonly state: BookState }) {
  const { keptAt, notKept } = state;
  const text = notSavedText(state);
  const saved = text && `${text} `;
  if (notKept !== undefined)
    return (
      <span class="kb-notkept">{`${saved}It could not be kept in this browser (${notKept}): save it as a file.`}</span>
    );
  return <span>{saved + (keptAt === undefined ? "" : `Kept in this browser, ${time(keptAt)}.`)}</span>;
}

/** A sheet of the page over the grid, closed by Escape. */
function Sheet({
  label,
  close,
  children,
}: {
  readonly label: string;
  readonly close: () => void;
  readonly children: ComponentChildren;
}) {
  const place = useRef<HTMLDivElement>(null);
  useEffect(() => place.current?.querySelector<HTMLElement>("input,button")?.focus(), []);
  return (
    <div
      class="book-sheet"
      role="dialog"
      aria-label={label}
      ref={place}
      onKeyDown={(event) => {
        if (event.key === "Escape") close();
      }}
    >
      {children}
    </div>
  );
}

function SaveAs({
  books,
  state,
  close,
}: {
  readonly books: Books;
  readonly state: BookState;
  readonly close: () => void;
}) {
  const [name, setName] = useState(books.proposed);
  const { book } = state;
  return (
    <Sheet label="Save as" close={close}>
      <form
        onSubmit={(event) => {
          event.preventDefault();
          close();
          void books.save(name);
        }}
      >
        {book.foreign && (
          <p>
            {`“${fileName(book.name)}” was made by another program` +
              (book.notUnderstood.length > 0 ? " and holds what is not kept here" : "") +
              ". Save it under another name, so that the original stays."}
          </p>
        )}
        <label>
          Name of the file{" "}
          <input
            type="text"
            value={name}
            maxLength={120}
            required
            onInput={(event) => setName(event.currentTarget.value)}
          />
        </label>
        <button type="submit">Save</button>
        <button type="button" onClick={close}>
          Cancel
        </button>
      </form>
    </Sheet>
  );
}

function KeptList({
  books,
  state,
  close,
}: {
  readonly books: Books;
  readonly state: BookState;
  readonly close: () => void;
}) {
  const [list, setList] = useState<readonly KeptBook[]>();
  const [problem, setProblem] = useState("");
  const read = (): void =>
    void books.kept().then(
      (all) => setList([...all].sort((a, b) => b.at - a.at)),
      (error: unknown) => setProblem(`The kept workbooks could not be read: ${whyNot(error)}`),
    );
  useEffect(read, []);
  const fail = (error: unknown): void => setProblem(whyNot(error));
  return (
    <Sheet label="Workbooks kept in this browser" close={close}>
      <p>Workbooks kept in this browser. They stay here until you delete them or the browser's data.</p>
      {problem && <p role="alert">{problem}</p>}
      {list?.length === 0 && <p>None yet.</p>}
      <ul>
        {list?.map((one) => (
          <li key={one.id}>
            <button
              type="button"
              disabled={one.id === state.book.id}
              onClick={() => {
                close();
                void books.openKept(one);
              }}
            >
              {`Open “${one.name}”`}
            </button>{" "}
            <span>
              {time(one.at)}
              {one.id === state.book.id ? ", open now" : ""}
              {one.saved ? "" : ", not saved as a file"}
            </span>{" "}
            <button
              type="button"
              disabled={one.id === state.book.id}
              aria-label={`Delete “${one.name}” of ${time(one.at)}`}
              onClick={() => {
                const unsaved = one.saved ? "" : " It was never saved as a file.";
                if (window.confirm(`Delete “${one.name}” from this browser?${unsaved}`))
                  books.remove(one.id).then(read, fail);
              }}
            >
              Delete
            </button>
          </li>
        ))}
      </ul>
      <button
        type="button"
        onClick={() => {
          close();
          void books.start();
        }}
      >
        New workbook
      </button>{" "}
      <button type="button" onClick={close}>
        Close
      </button>
    </Sheet>
  );
}

type Shown = "saveAs" | "kept" | undefined;

function BookBar({ books, offered }: { readonly books: Books; readonly offered: KeptBook | undefined }) {
  const [state, setState] = useState(books.state);
  const [shown, setShown] = useState<Shown>();
  const [offer, setOffer] = useState(offered);
  const chooser = useRef<HTMLInputElement>(null);
  useEffect(() => books.onState(setState), [books]);
  const save = (): void => {
    if (books.state.book.foreign) setShown("saveAs");
    else void books.save();
  };
  const open = async (file: File | undefined): Promise<void> => {
    if (!file) return;
    setOffer(undefined);
    await books.openFile(file.name, file);
  };
  useEffect(() => {
    const key = (event: KeyboardEvent): void => {
      if (!(event.ctrlKey || event.metaKey) || event.altKey || event.shiftKey) return;
      const pressed = event.key.toLowerCase();
      if (pressed !== "o" && pressed !== "s") return;
      event.preventDefault();
      event.stopImmediatePropagation();
      if (pressed === "s") save();
      else chooser.current?.click();
    };
    const over = (event: DragEvent): void => {
      if (event.dataTransfer?.types.includes("Files")) event.preventDefault();
    };
    const drop = (event: DragEvent): void => {
      const file = event.dataTransfer?.files[0];
      if (!file) return;
      event.preventDefault();
      event.stopImmediatePropagation();
      void open(file);
    };
    window.addEventListener("keydown", key, true);
    window.addEventListener("dragover", over, true);
    window.addEventListener("drop", drop, true);
    return () => {
      window.removeEventListener("keydown", key, true);
      window.removeEventListener("dragover", over, true);
      window.removeEventListener("drop", drop, true);
    };
  }, [books]);
  const { book, problem, news } = state;
  return (
    <>
      <div class="book-line">
        <strong class="book-name">{book.name}</strong>
        <button type="button" aria-keyshortcuts="Control+O" onClick={() => chooser.current?.click()}>
          Open…
        </button>
        <button type="button" aria-keyshortcuts="Control+S" onClick={save}>
          Save
        </button>
        <button type="button" onClick={() => setShown("saveAs")}>
          Save as…
        </button>
        <button type="button" onClick={() => setShown("kept")}>
          Kept workbooks…
        </button>
        <input
          ref={chooser}
          class="unseen"
          type="file"
          accept=".xlsx"
          tabIndex={-1}
          aria-label="Workbook file to open"
          onChange={(event) => {
            const input = event.currentTarget;
            void open(input.files?.[0]).then(() => (input.value = ""));
          }}
        />
        <span class="book-state" role="status">
          {news && `${news} `}
          <KeptText state={state} />
        </span>
      </div>
      {problem && (
        <p class="book-problem" role="alert">
          {problem}
        </p>
      )}
      {offer && (
        <p class="book-offer">
          {`“${offer.name}” is kept in this browser, ${time(offer.at)}. `}
          <button
            type="button"
            onClick={() => {
              setOffer(undefined);
              void books.openKept(offer);
            }}
          >
            {`Open “${offer.name}”`}
          </button>{" "}
          <button type="button" onClick={() => setOffer(undefined)}>
            Not now
          </button>
        </p>
      )}
      {book.notUnderstood.length > 0 && (
        <details class="book-left" open>
          <summary>{`Not understood in “${fileName(book.name)}”, and not in a file saved from here`}</summary>
          <ul>
            {book.notUnderstood.map((line) => (
              <li key={line}>{line}</li>
            ))}
          </ul>
        </details>
      )}
      {shown === "saveAs" && <SaveAs books={books} state={state} close={() => setShown(undefined)} />}
      {shown === "kept" && <KeptList books={books} state={state} close={() => setShown(undefined)} />}
    </>
  );
}

/** Shows the bar of the open workbook in an element; `offered`: a kept workbook to open, where none was. */
export function mountBookBar(element: HTMLElement, books: Books, offered: KeptBook | undefined): void {
  render(h(BookBar, { books, offered }), element);
}
