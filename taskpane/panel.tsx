import type { ComponentChildren } from "preact";
import { useLayoutEffect, useRef, useState } from "preact/hooks";
import type { Host, Place } from "../src/hosts/index.ts";
import { BuildView } from "./build/buildView.tsx";
import { shortCaution } from "./cautions.tsx";
import type { Engine } from "./engine.ts";
import { LaterView } from "./laterView.tsx";
import { whyNot } from "./loading.ts";
import { OpenReference } from "./reference/openReference.tsx";
import type { Asked } from "./reference/referenceView.tsx";
import { scrollBack, scrolledTo } from "./scroll.ts";

interface Shared {
  readonly host: Host;
  readonly engine: Engine;
  /** Selects a cell and turns to Trace. */
  readonly trace: (place: Place) => void;
  /** Selects a cell and shows it. */
  readonly select: (place: Place) => void;
  /** The reference page that another view asked for, and the way back to that view. */
  readonly reference: Asked | undefined;
  readonly back: () => void;
  /** The view that Trace was asked from, and the way back to what it showed. */
  readonly asker: { readonly title: string; readonly back: () => void } | undefined;
  /** Turns to Insert with a function. */
  readonly insert: (id: string) => void;
  readonly insertion: { readonly id: string } | undefined;
}

const loadInsert = () => import("./insert/insertView.tsx").then((m) => m.InsertView);
const loadCheck = () => import("./check/checkView.tsx").then((m) => m.CheckView);
const loadReference = () => import("./reference/referenceView.tsx").then((m) => m.ReferenceView);
const loadTrace = () => import("./trace/traceView.tsx").then((m) => m.TraceView);

/** The panel's views in the order of their tabs. */
const views = [
  {
    id: "build",
    title: "Build",
    view: ({ host, engine }: Shared): ComponentChildren => <BuildView host={host} engine={engine} />,
  },
  {
    id: "insert",
    title: "Insert",
    view: ({ host, trace, insertion }: Shared): ComponentChildren => (
      <LaterView title="Insert" load={loadInsert} given={{ host, trace, asked: insertion }} />
    ),
  },
  {
    id: "trace",
    title: "Trace",
    view: ({ host, asker }: Shared): ComponentChildren => (
      <LaterView title="Trace" load={loadTrace} given={{ host, asker }} />
    ),
  },
  {
    id: "check",
    title: "Check",
    view: ({ host, trace, select }: Shared): ComponentChildren => (
      <LaterView title="Check" load={loadCheck} given={{ host, trace, select }} />
    ),
  },
  {
    id: "reference",
    title: "Reference",
    view: ({ reference, back, insert }: Shared): ComponentChildren => (
      <LaterView title="The reference" load={loadReference} given={{ asked: reference, back, insert }} />
    ),
  },
] as const;
type View = (typeof views)[number]["id"];

/** The side panel: its views as tabs, all of them kept while another is looked at. */
export function Panel({ host, engine }: { readonly host: Host; readonly engine: Engine }) {
  const [view, setView] = useState<View>("build");
  const [seen, setSeen] = useState<ReadonlySet<View>>(new Set(["build"]));
  const [problem, setProblem] = useState("");
  const [reference, setReference] = useState<Asked & { readonly view: View }>();
  const [insertion, setInsertion] = useState<{ readonly id: string }>();
  const [asked, setAsked] = useState<{ readonly view: View; readonly by: Element | null }>();
  const standing = useRef<HTMLDivElement>(null);
  const scrolled = useRef(new Map<View, readonly number[]>());
  /** A view opens where it was left; Trace at its top, since another cell may be selected by then. */
  const show = (next: View, whereLeft = next !== "trace"): void => {
    if (next !== view) scrolled.current.set(view, scrolledTo(standing.current));
    if (!whereLeft) scrolled.current.delete(next);
    setAsked(undefined);
    setView(next);
    setSeen((s) => new Set([...s, next]));
    setProblem("");
  };
  useLayoutEffect(() => scrollBack(standing.current, scrolled.current.get(view)), [view]);
  const move = (event: KeyboardEvent): void => {
    const at = views.findIndex((v) => v.id === view);
    const to = {
      ArrowRight: (at + 1) % views.length,
      ArrowLeft: (at + views.length - 1) % views.length,
      Home: 0,
      End: views.length - 1,
    }[event.key];
    if (to === undefined) return;
    event.preventDefault();
    show(views[to]!.id);
    document.getElementById(`kb-tab-${views[to]!.id}`)?.focus();
  };
  const select = (place: Place): void => {
    host.select(place).catch((error: unknown) => setProblem(`The cell could not be selected: ${whyNot(error)}`));
  };
  const trace = (place: Place): void => {
    const by = document.activeElement;
    show("trace");
    setAsked({ view, by });
    document.getElementById("kb-tab-trace")?.focus();
    select(place);
  };
  const backToAsker = ({ view: to, by }: NonNullable<typeof asked>): void => {
    show(to);
    // Once the view stands again: what is hidden takes no focus.
    requestAnimationFrame(() => {
      if (by instanceof HTMLElement) by.focus({ preventScroll: true });
    });
  };
  const refer = (id: string): void => {
    setReference({ id, from: views.find((v) => v.id === view)!.title, view });
    show("reference");
  };
  const insert = (id: string): void => {
    setInsertion({ id });
    show("insert");
  };
  const back = (): void => show(reference?.view ?? "build", true);
  const shared: Shared = {
    host,
    engine,
    trace,
    select,
    reference,
    back,
    insert,
    insertion,
    asker: asked && { title: views.find((v) => v.id === asked.view)!.title, back: () => backToAsker(asked) },
  };
  return (
    <OpenReference.Provider value={refer}>
      <div class="kb-panel">
        <div class="kb-tabs" role="tablist" aria-label="Views" onKeyDown={move}>
          {views.map((v) => (
            <button
              key={v.id}
              type="button"
              role="tab"
              id={`kb-tab-${v.id}`}
              aria-controls={`kb-view-${v.id}`}
              aria-selected={view === v.id}
              tabIndex={view === v.id ? 0 : -1}
              onClick={() => show(v.id)}
            >
              {v.title}
            </button>
          ))}
        </div>
        {problem && (
          <p class="kb-problem" role="alert">
            {problem}
          </p>
        )}
        <div class="kb-views" ref={standing}>
          {views.map((v) => (
            <div
              key={v.id}
              role="tabpanel"
              id={`kb-view-${v.id}`}
              aria-labelledby={`kb-tab-${v.id}`}
              hidden={view !== v.id}
            >
              {seen.has(v.id) && v.view(shared)}
            </div>
          ))}
        </div>
        <footer class="kb-footer">{shortCaution}</footer>
      </div>
    </OpenReference.Provider>
  );
}
