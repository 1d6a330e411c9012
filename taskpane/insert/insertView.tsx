import { a1, type Address, type Area, placeText } from "../../src/cells/index.ts";
import { useEffect, useRef, useState } from "preact/hooks";
import type { CellContent, Host, InsertedCell, Place, Selection } from "../../src/hosts/index.ts";
import { whyNot } from "../loading.ts";
import { scrollToTop } from "../scroll.ts";
import { ReferenceLink } from "../reference/openReference.tsx";
import { libraries, type Libraries } from "../trace/libraries.ts";
import { BlockForm } from "./blockForm.tsx";
import { FunctionCard } from "./functionCard.tsx";
import { FunctionList } from "./functionList.tsx";
import { designFunctions, type DesignFunction } from "./search.ts";
import { WireForm } from "./wireForm.tsx";

interface Done {
  readonly place: Place;
  readonly area: string;
  readonly content: CellContent | undefined;
}

/** For a sheet of one's own: find a function, and put it there with labelled arguments or wired to the cells that are there. */
export function InsertView({
  host,
  trace,
  asked,
}: {
  readonly host: Host;
  readonly trace: (place: Place) => void;
  readonly asked?: { readonly id: string } | undefined;
}) {
  const [query, setQuery] = useState("");
  const [chosen, setChosen] = useState<DesignFunction>();
  const [way, setWay] = useState<"block" | "wire">("block");
  const [selection, setSelection] = useState<Selection>();
  const [loaded, setLoaded] = useState<Libraries>();
  const [busy, setBusy] = useState(false);
  const [problem, setProblem] = useState("");
  const [done, setDone] = useState<Done>();
  const section = useRef<HTMLElement>(null);

  useEffect(() => {
    let live = true;
    const follow = (at: Selection | undefined): void => {
      if (live && at) setSelection(at);
    };
    host.selection().then(follow, (error: unknown) => {
      if (live) setProblem(`The selection could not be read: ${whyNot(error)}`);
    });
    const end = host.onSelection(follow);
    return () => {
      live = false;
      end();
    };
  }, [host]);
  useEffect(() => {
    if (!chosen || loaded) return;
    // Without it the equations show as plain text.
    libraries().then(setLoaded, (error: unknown) => setProblem(`The equations cannot be set: ${whyNot(error)}.`));
  }, [chosen]);

  const open = (of: DesignFunction | undefined): void => {
    setChosen(of);
    setDone(undefined);
    setProblem("");
    if (section.current) scrollToTop(section.current);
  };
  useEffect(() => {
    const of = designFunctions.find(({ id }) => id === asked?.id);
    if (of) open(of);
  }, [asked]);
  const insert = (sheet: string, cells: readonly InsertedCell[], result: Address, area?: Area): void => {
    setBusy(true);
    setProblem("");
    setDone(undefined);
    const place = { sheet, row: result.row, column: result.column };
    host
      .insert(sheet, cells)
      .then(() => host.read(sheet, { ...result, rows: 1, columns: 1 }))
      .then((cells) =>
        setDone({
          place,
          area: placeText({ sheet, ...(area ?? { ...result, rows: 1, columns: 1 }) }, ""),
          content: cells[0]?.[0],
        }),
      )
      .catch((error: unknown) => setProblem(whyNot(error)))
      .finally(() => setBusy(false));
  };

  if (!chosen)
    return (
      <section ref={section}>
        <h2>Insert a function</h2>
        <p>Into a sheet of your own. Nothing that is filled is ever overwritten.</p>
        <FunctionList query={query} setQuery={setQuery} open={open} />
        {problem && (
          <p class="kb-problem" role="alert">
            {problem}
          </p>
        )}
      </section>
    );
  return (
    <section ref={section}>
      <p>
        <button type="button" class="kb-link" onClick={() => open(undefined)}>
          ‹ All functions
        </button>{" "}
        <ReferenceLink id={chosen.id} />
      </p>
      <h2>
        {chosen.name.split("_").map((part, i) =>
          i === 0 ? (
            part
          ) : (
            <>
              <wbr />_{part}
            </>
          ),
        )}
      </h2>
      <FunctionCard of={chosen} libraries={loaded} />
      <fieldset class="kb-ways">
        <legend>How to insert it</legend>
        <label>
          <input type="radio" name="kb-way" checked={way === "block"} onChange={() => setWay("block")} /> as a labelled
          block with its arguments
        </label>
        <label>
          <input type="radio" name="kb-way" checked={way === "wire"} onChange={() => setWay("wire")} /> wired to cells
          that are on the sheet
        </label>
      </fieldset>
      {way === "block" ? (
        <BlockForm key={chosen.id} of={chosen} host={host} selection={selection} insert={insert} busy={busy} />
      ) : (
        <WireForm key={chosen.id} of={chosen} host={host} selection={selection} insert={insert} busy={busy} />
      )}
      {problem && (
        <div class="kb-failure" role="alert">
          {problem}
        </div>
      )}
      {done && (
        <div class="kb-done" role="status">
          <p>
            Inserted in {done.area}. {resultWords(done)}
          </p>
          <p class="kb-hint">
            {host.undoesInsertion
              ? "Undo (Ctrl+Z on the sheet) takes it back in one step."
              : "To take it back, clear those cells, or use the program's undo where it offers one."}
          </p>
          <button type="button" onClick={() => trace(done.place)}>
            Trace {a1(done.place)}
          </button>
        </div>
      )}
    </section>
  );
}

function resultWords({ place, content }: Done): string {
  if (!content) return "";
  if (content.error)
    return `${a1(place)} shows ${content.error.code}${content.error.message ? `: ${content.error.message}` : ""}. Fill in what is missing.`;
  return `${a1(place)} shows ${content.text || "nothing"}.`;
}
