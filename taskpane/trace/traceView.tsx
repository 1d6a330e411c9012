import { placeText } from "../../src/cells/index.ts";
import { useEffect, useLayoutEffect, useRef, useState } from "preact/hooks";
import { printed, traceCell, tracerOf, type TracedCall, type TracedCell } from "../../src/checker/index.ts";
import type { Host, Place } from "../../src/hosts/index.ts";
import { onBuilt, onForgotten } from "../built.ts";
import { whyNot } from "../loading.ts";
import { scrollToTop } from "../scroll.ts";
import { CallTrace } from "./callTrace.tsx";
import { Dependants } from "./dependants.tsx";
import { libraries, type Libraries } from "./libraries.ts";
import { NoteForm } from "./noteForm.tsx";
import { LabelWords, PlaceLink, unitWords } from "./originLink.tsx";
import { FormulaWords, Precedents } from "./plainFormula.tsx";
import { left, useTrail, wentBack, wentForward } from "./trail.ts";
import { TreeView } from "./treeView.tsx";
import { Sentence, TradeSymbol } from "./tradeSymbol.tsx";

/** A burst of recalculations ends before the cell is read anew. */
const settle = 60;

const sameCell = (a: Place | undefined, b: Place | undefined): boolean =>
  a?.sheet === b?.sheet && a?.row === b?.row && a?.column === b?.column;

interface Props {
  readonly host: Host;
  /** The view that asked for the cell, with the way back to it. */
  readonly asker: { readonly title: string; readonly back: () => void } | undefined;
}

/** What stands behind the selected cell. */
export function TraceView({ host, asker }: Props) {
  const [place, setPlace] = useState<Place>();
  const [trail, setTrail] = useTrail();
  const [shown, setShown] = useState<TracedCell>();
  const [chosen, setChosen] = useState(0);
  const [problem, setProblem] = useState<string>();
  const [loaded, setLoaded] = useState<Libraries>();
  const [calculation, setCalculation] = useState(0);
  const section = useRef<HTMLElement>(null);
  const traced = useRef<Place>();

  useEffect(() => {
    let live = true;
    libraries().then(
      (l) => {
        if (live) setLoaded(l);
      },
      (error: unknown) => {
        if (live) setProblem(`The equations cannot be set: ${whyNot(error)}.`);
      },
    );
    const follow = (next: Place): void => {
      if (live) setPlace((before) => (sameCell(before, next) ? before : next));
    };
    host.selection().then(
      (at) => {
        if (at) follow(at);
      },
      (error: unknown) => {
        if (live) setProblem(`The selection could not be read: ${whyNot(error)}. Select a cell.`);
      },
    );
    const ends = [
      host.onSelection(follow),
      host.onCalculated(() => {
        if (live) setCalculation((n) => n + 1);
      }),
      onBuilt(({ sheet }) => tracerOf(host).knowledge.forget(sheet)),
      onForgotten(() => tracerOf(host).knowledge.forget()),
    ];
    return () => {
      live = false;
      for (const end of ends) end();
    };
  }, [host]);

  useLayoutEffect(() => {
    setChosen(0);
    scrollToTop(section.current);
  }, [place]);

  // Before the next frame: drawing a grid that has scrolled to the cell would come first otherwise.
  useLayoutEffect(() => {
    if (!place) return;
    let live = true;
    const run = (): void => {
      traced.current = place;
      traceCell(host, place).then(
        (cell) => {
          if (!live) return;
          setShown(cell);
          setProblem(undefined);
        },
        (error: unknown) => {
          if (live) setProblem(`The cell could not be read: ${whyNot(error)}. Select it again.`);
        },
      );
    };
    const wait = sameCell(traced.current, place) ? setTimeout(run, settle) : undefined;
    if (wait === undefined) run();
    return () => {
      live = false;
      clearTimeout(wait);
    };
  }, [host, place, calculation]);

  const show = (to: Place): void => {
    setPlace(to);
    void host.select(to).catch((error: unknown) => setProblem(`The cell could not be selected: ${whyNot(error)}`));
  };
  const go = (to: Place): void => {
    if (place) setTrail((t) => left(t, place));
    show(to);
  };
  const back = trail.past.at(-1);
  const forward = trail.ahead[0];
  const turnBack = (to: Place): void => {
    if (place) setTrail((t) => wentBack(t, place));
    show(to);
  };
  const turnForward = (to: Place): void => {
    if (place) setTrail((t) => wentForward(t, place));
    show(to);
  };

  return (
    <section ref={section} class="kb-trace" aria-label="Trace">
      <div role="alert">{problem && <p class="kb-problem">{problem}</p>}</div>
      {(asker ?? back ?? forward) && (
        <div class="kb-pick">
          {asker && (
            <button type="button" class="kb-back" onClick={asker.back}>
              ‹ Back to {asker.title}
            </button>
          )}
          {back && (
            <button type="button" class="kb-back" onClick={() => turnBack(back)}>
              Back to {cellName(back, place)}
            </button>
          )}
          {forward && (
            <button type="button" class="kb-back" onClick={() => turnForward(forward)}>
              Forward to {cellName(forward, place)}
            </button>
          )}
        </div>
      )}
      {shown ? (
        <CellTrace host={host} cell={shown} chosen={chosen} choose={setChosen} go={go} libraries={loaded} />
      ) : (
        <p>Select a cell to see which equation, clause and numbers stand behind its value.</p>
      )}
    </section>
  );
}

const cellName = (to: Place, from: Place | undefined): string =>
  placeText({ ...to, rows: 1, columns: 1 }, from?.sheet ?? to.sheet);

interface CellProps {
  readonly host: Host;
  readonly cell: TracedCell;
  readonly chosen: number;
  readonly choose: (n: number) => void;
  readonly go: (to: Place) => void;
  readonly libraries: Libraries | undefined;
}

function CellTrace({ host, cell, chosen, choose, go, libraries }: CellProps) {
  const { content, label, calls, partOf } = cell;
  const call = calls[Math.min(chosen, calls.length - 1)];
  // The function that refuses shows the message; here it would be a repetition.
  const told = calls.some(({ refused }) => refused && content.error?.message?.includes(refused.message));
  const opens = cell.precedents.length > 0 || partOf !== undefined;
  return (
    <>
      <header class="kb-cell">
        <h2>
          {cell.place.sheet} <span class="kb-address">{cell.address}</span>
        </h2>
        {label && (
          <p>
            <LabelWords label={label} symbol />
          </p>
        )}
        <p class="kb-value">
          <strong>{printed(content)}</strong>
          {!content.error && typeof content.value === "number" && unitWords(label) !== "" ? ` ${unitWords(label)}` : ""}
        </p>
        {content.error && !told && (
          <p class="kb-problem">{content.error.message ?? "The spreadsheet program gives no reason for this error."}</p>
        )}
        {cell.unlike !== undefined && !call?.call.whole && (
          <p class="kb-problem">{cell.unlike}. Recalculate the workbook.</p>
        )}
        {cell.misfit !== undefined && (
          <p class="kb-problem">
            <strong>Unit of the result.</strong> {cell.misfit}.
          </p>
        )}
        <Flags calls={partOf ? [partOf.call] : calls} />
        <Warnings calls={partOf ? [partOf.call] : calls} />
        {content.formula !== undefined && (
          <p class="kb-formula">
            <code>{content.formula}</code>
          </p>
        )}
      </header>
      {partOf && <PartOf cell={cell} go={go} />}
      {content.formula === undefined && !partOf && (
        <p>
          {content.text === "" ? "The cell is empty." : "The cell holds a typed value, no formula."}
          {label ? "" : " No text beside it tells what it is."}
        </p>
      )}
      {cell.unreadable !== undefined && <p class="kb-problem">The formula cannot be read: {cell.unreadable}.</p>}
      {cell.read && !call?.call.whole && <FormulaWords cell={cell} />}
      {calls.length > 1 && (
        <fieldset class="kb-calls">
          <legend>Functions in this cell</legend>
          {calls.map((c, i) => (
            <label key={i} class={`kb-depth-${Math.min(c.call.depth, 3)}`}>
              <input type="radio" name="kb-call" checked={i === chosen} onChange={() => choose(i)} />{" "}
              {c.call.misspelt ?? `KERN.${c.call.id}`}
              {c.call.depth > 0 ? " (inside the one above)" : ""}
            </label>
          ))}
        </fieldset>
      )}
      {call && <CallTrace traced={call} go={go} libraries={libraries} />}
      {partOf && <CallTrace traced={partOf.call} go={go} libraries={libraries} at={partOf} />}
      {cell.read && !call?.call.whole && <Precedents cell={cell} go={go} />}
      {opens && (
        <section>
          <h3>How this value comes about</h3>
          <TreeView host={host} cell={cell} go={go} />
          <NoteForm host={host} cell={cell} libraries={libraries} />
        </section>
      )}
      {content.text !== "" && <Dependants host={host} place={cell.place} version={cell} go={go} />}
    </>
  );
}

/** Which part of a spilled result a cell shows. */
function PartOf({ cell: { partOf }, go }: { readonly cell: TracedCell; readonly go: (to: Place) => void }) {
  const { call, row, column, anchor, address } = partOf!;
  const [, quantity] = Object.entries(call.spilled.of.columns)[column]!;
  return (
    <p>
      Row {row + 1}, column {column + 1} of the result of <code>KERN.{call.call.id}</code> in{" "}
      <PlaceLink place={anchor} address={address} label={undefined} go={go} />: <TradeSymbol of={quantity.symbol} />{" "}
      <Sentence of={quantity.text} />
      {quantity.unit !== "–" && ` in ${quantity.unit}`}.
    </p>
  );
}

/** What does not fit between arguments and the cells they come from. */
function Flags({ calls }: { readonly calls: readonly TracedCall[] }) {
  const flagged = calls.flatMap((c) =>
    c.flags
      .filter(({ kind }) => kind !== "unusual")
      .map((flag) => ({ flag, of: (c.formula ?? c.spill)!, id: c.call.id })),
  );
  if (flagged.length === 0) return null;
  return (
    <section class="kb-failure kb-flags">
      <h3>Does not fit</h3>
      <ul>
        {flagged.map(({ flag, of, id }, i) => (
          <li key={i}>
            <strong>
              <TradeSymbol of={of.params[flag.parameter]!.symbol} /> <Sentence of={of.params[flag.parameter]!.text} />
            </strong>
            {calls.length > 1 && (
              <>
                {" "}
                of <code>KERN.{id}</code>
              </>
            )}
            : <Sentence of={flag.message} />.
          </li>
        ))}
      </ul>
    </section>
  );
}

/** What every function of the cell warns of: it stands by the value, since it bears on whether the value may be used. */
function Warnings({ calls }: { readonly calls: readonly TracedCall[] }) {
  const warning = calls
    .map(({ call, trace, spilled }) => ({ call, all: trace?.warnings ?? spilled?.warnings ?? [] }))
    .filter(({ all }) => all.length > 0);
  if (warning.length === 0) return null;
  return (
    <section class="kb-warnings">
      <h3>Warnings</h3>
      {warning.map(({ call, all }, i) => (
        <div key={i}>
          {calls.length > 1 && <p class="kb-from">KERN.{call.id}</p>}
          <ul>
            {all.map((w) => (
              <li key={w}>
                <Sentence of={w} />
              </li>
            ))}
          </ul>
        </div>
      ))}
    </section>
  );
}
