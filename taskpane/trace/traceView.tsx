import { useEffect, useRef, useState } from "preact/hooks";
import type { Host, Place } from "../../src/hosts/index.ts";
import { scrollToTop } from "../scroll.ts";
import { CallTrace } from "./callTrace.tsx";
import { OriginLink } from "./originLink.tsx";
import { inspect, traceCall, type Inspection, type Origin, type TracedCall } from "./inspect.ts";
import { libraries, type Libraries } from "./libraries.ts";
import { placeText } from "../../src/checker/index.ts";
import { Sentence, TradeSymbol } from "./tradeSymbol.tsx";

interface Shown {
  readonly inspection: Inspection;
  readonly calls: readonly TracedCall[];
}

const cellText = (o: Origin): string => {
  const cells = o.contents.flat();
  if (cells.length === 1) return cells[0]!.error ? cells[0]!.error.code : cells[0]!.text || "empty";
  return o.place ? `${o.place.rows} × ${o.place.columns} cells` : "not a range of cells";
};

const sameCell = (a: Place | undefined, b: Place | undefined): boolean => a?.sheet === b?.sheet && a?.row === b?.row && a?.column === b?.column;

/** What stands behind the selected cell. */
export function TraceView({ host }: { readonly host: Host }) {
  const [place, setPlace] = useState<Place>();
  const [history, setHistory] = useState<readonly Place[]>([]);
  const [shown, setShown] = useState<Shown>();
  const [chosen, setChosen] = useState(0);
  const [problem, setProblem] = useState<string>();
  const [loaded, setLoaded] = useState<Libraries>();
  const [calculation, setCalculation] = useState(0);
  const section = useRef<HTMLElement>(null);

  useEffect(() => {
    let live = true;
    libraries().then((l) => { if (live) setLoaded(l); }, (error) => { if (live) setProblem(`The equations cannot be set: ${String(error)}. Close the panel and open it again.`); });
    const follow = (next: Place): void => {
      if (live) setPlace((before) => (sameCell(before, next) ? before : next));
    };
    host.selection().then((at) => { if (at) follow(at); }, (error: unknown) => { if (live) setProblem(`The selection could not be read: ${error instanceof Error ? error.message : String(error)}. Select a cell.`); });
    const ends = [host.onSelection(follow), host.onCalculated(() => { if (live) setCalculation((n) => n + 1); })];
    return () => {
      live = false;
      for (const end of ends) end();
    };
  }, [host]);

  useEffect(() => {
    setChosen(0);
    scrollToTop(section.current);
  }, [place]);

  useEffect(() => {
    if (!place) return;
    let live = true;
    // A drag or a burst of recalculations ends before the cell is read.
    const wait = setTimeout(() => {
      void (async () => {
        try {
          const inspection = await inspect(host, place);
          const calls = await Promise.all((inspection.read?.calls ?? []).map((c) => traceCall(host, c, inspection)));
          if (live) {
            setShown({ inspection, calls });
            setProblem(undefined);
          }
        } catch (error) {
          if (live) setProblem(`The cell could not be read: ${error instanceof Error ? error.message : String(error)}. Select it again.`);
        }
      })();
    }, 60);
    return () => {
      live = false;
      clearTimeout(wait);
    };
  }, [host, place, calculation]);

  const go = (to: Place): void => {
    if (place) setHistory((h) => [...h, place]);
    setPlace(to);
    void host.select(to).catch((error: unknown) => setProblem(`The cell could not be selected: ${String(error)}`));
  };
  const back = (): void => {
    const to = history.at(-1);
    if (!to) return;
    setHistory((h) => h.slice(0, -1));
    setPlace(to);
    void host.select(to).catch((error: unknown) => setProblem(`The cell could not be selected: ${String(error)}`));
  };

  return <section ref={section} class="kb-trace" aria-label="Trace">
    <div role="alert">{problem && <p class="kb-problem">{problem}</p>}</div>
    {history.length > 0 && <button type="button" class="kb-back" onClick={back}>Back to {cellName(history.at(-1)!, place)}</button>}
    {shown ? <CellTrace shown={shown} chosen={chosen} choose={setChosen} go={go} libraries={loaded} /> : <p>Select a cell to see which equation, clause and numbers stand behind its value.</p>}
  </section>;
}

const cellName = (to: Place, from: Place | undefined): string => placeText({ ...to, rows: 1, columns: 1 }, from?.sheet ?? to.sheet);

function CellTrace({ shown: { inspection, calls }, chosen, choose, go, libraries }: { readonly shown: Shown; readonly chosen: number; readonly choose: (n: number) => void; readonly go: (to: Place) => void; readonly libraries: Libraries | undefined }) {
  const { content, meaning, read } = inspection;
  const call = calls[Math.min(chosen, calls.length - 1)];
  return <>
    <header class="kb-cell">
      <h2>{inspection.place.sheet} <span class="kb-address">{inspection.address}</span></h2>
      {meaning && <p>{meaning.item && <span class="kb-item">{meaning.item} </span>}{meaning.description} <TradeSymbol of={meaning.symbol} /></p>}
      <p class="kb-value"><strong>{content.error ? content.error.code : content.text || "empty"}</strong>{meaning && meaning.unit !== "–" && !content.error && content.text !== "" ? ` ${meaning.unit}` : ""}</p>
      {content.error && <p class="kb-problem">{content.error.message ?? "The spreadsheet program gives no reason for this error."}</p>}
      <Warnings calls={calls} />
      {content.formula !== undefined && <p class="kb-formula"><code>{content.formula}</code></p>}
    </header>
    {content.formula === undefined && <p>{content.text === "" ? "The cell is empty." : "The cell holds a typed value, no formula."}{meaning ? "" : " The panel knows no row of a check sheet here."}</p>}
    {inspection.unreadable && <p class="kb-problem">The formula cannot be read: {inspection.unreadable}.</p>}
    {calls.length > 1 && <fieldset class="kb-calls">
      <legend>Functions in this cell</legend>
      {calls.map((c, i) => <label key={i} class={`kb-depth-${Math.min(c.call.depth, 3)}`}><input type="radio" name="kb-call" checked={i === chosen} onChange={() => choose(i)} /> KERN.{c.call.id}{c.call.depth > 0 ? " (inside the one above)" : ""}</label>)}
    </fieldset>}
    {call && <CallTrace traced={call} from={inspection.place.sheet} go={go} libraries={libraries} />}
    {read && !call && <>
      <h3>Refers to</h3>
      {inspection.precedents.length === 0 ? <p>This formula refers to no cell.</p> : <ul class="kb-precedents">
        {inspection.precedents.map((p) => <li key={p.text}><OriginLink origin={p} go={go} /> {p.meaning && <>{p.meaning.description} <TradeSymbol of={p.meaning.symbol} /></>} <b>{cellText(p)}</b>{p.meaning && p.contents.flat().length === 1 && p.meaning.unit !== "–" ? ` ${p.meaning.unit}` : ""}</li>)}
      </ul>}
    </>}
  </>;
}

/** What every function of the cell warns of: it stands by the value, since it bears on whether the value may be used. */
function Warnings({ calls }: { readonly calls: readonly TracedCall[] }) {
  const warning = calls.filter((c) => c.trace && c.trace.warnings.length > 0);
  if (warning.length === 0) return null;
  return <section class="kb-warnings">
    <h3>Warnings</h3>
    {warning.map(({ call, trace }, i) => <div key={i}>
      {calls.length > 1 && <p class="kb-from">KERN.{call.id}</p>}
      <ul>{trace!.warnings.map((w) => <li key={w}><Sentence of={w} /></li>)}</ul>
    </div>)}
  </section>;
}
