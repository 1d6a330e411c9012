import type { ComponentChildren } from "preact";
import { useState } from "preact/hooks";
import { reasonOf } from "../src/core/index.ts";
import type { Host, Place } from "../src/hosts/index.ts";
import { BuildView } from "./build/buildView.tsx";
import { shortCaution } from "./cautions.tsx";
import { CheckView } from "./check/checkView.tsx";
import type { Engine } from "./engine.ts";
import { InsertView } from "./insert/insertView.tsx";
import { LaterView } from "./laterView.tsx";
import { OpenReference } from "./reference/openReference.tsx";
import { ReferenceView, type Asked } from "./reference/referenceView.tsx";

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
  /** Turns to Insert with a function. */
  readonly insert: (id: string) => void;
  readonly insertion: { readonly id: string } | undefined;
}

const loadTrace = () => import("./trace/traceView.tsx").then((m) => m.TraceView);

/** The panel's views in the order of their tabs. */
const views = [
  { id: "build", title: "Build", view: ({ host, engine }: Shared): ComponentChildren => <BuildView host={host} engine={engine} /> },
  { id: "insert", title: "Insert", view: ({ host, trace, insertion }: Shared): ComponentChildren => <InsertView host={host} trace={trace} asked={insertion} /> },
  { id: "trace", title: "Trace", view: ({ host }: Shared): ComponentChildren => <LaterView title="Trace" load={loadTrace} given={{ host }} /> },
  { id: "check", title: "Check", view: ({ host, trace, select }: Shared): ComponentChildren => <CheckView host={host} trace={trace} select={select} /> },
  { id: "reference", title: "Reference", view: ({ reference, back, insert }: Shared): ComponentChildren => <ReferenceView asked={reference} back={back} insert={insert} /> },
] as const;
type View = (typeof views)[number]["id"];

/** The side panel: its views as tabs, all of them kept while another is looked at. */
export function Panel({ host, engine }: { readonly host: Host; readonly engine: Engine }) {
  const [view, setView] = useState<View>("build");
  const [seen, setSeen] = useState<ReadonlySet<View>>(new Set(["build"]));
  const [problem, setProblem] = useState("");
  const [reference, setReference] = useState<Asked & { readonly view: View }>();
  const [insertion, setInsertion] = useState<{ readonly id: string }>();
  const show = (next: View): void => {
    setView(next);
    setSeen((s) => new Set([...s, next]));
    setProblem("");
  };
  const move = (event: KeyboardEvent): void => {
    const at = views.findIndex((v) => v.id === view);
    const to = { ArrowRight: (at + 1) % views.length, ArrowLeft: (at + views.length - 1) % views.length, Home: 0, End: views.length - 1 }[event.key];
    if (to === undefined) return;
    event.preventDefault();
    show(views[to]!.id);
    document.getElementById(`kb-tab-${views[to]!.id}`)?.focus();
  };
  const select = (place: Place): void => {
    host.select(place).catch((error: unknown) => setProblem(`The cell could not be selected: ${reasonOf(error)}`));
  };
  const trace = (place: Place): void => {
    show("trace");
    select(place);
  };
  const refer = (id: string): void => {
    setReference({ id, from: views.find((v) => v.id === view)!.title, view });
    show("reference");
  };
  const insert = (id: string): void => {
    setInsertion({ id });
    show("insert");
  };
  const back = (): void => show(reference?.view ?? "build");
  const shared: Shared = { host, engine, trace, select, reference, back, insert, insertion };
  return <OpenReference.Provider value={refer}><div class="kb-panel">
    <div class="kb-tabs" role="tablist" aria-label="Views" onKeyDown={move}>
      {views.map((v) => <button key={v.id} type="button" role="tab" id={`kb-tab-${v.id}`} aria-controls={`kb-view-${v.id}`} aria-selected={view === v.id} tabIndex={view === v.id ? 0 : -1} onClick={() => show(v.id)}>{v.title}</button>)}
    </div>
    {problem && <p class="kb-problem" role="alert">{problem}</p>}
    <div class="kb-views">
      {views.map((v) => <div key={v.id} role="tabpanel" id={`kb-view-${v.id}`} aria-labelledby={`kb-tab-${v.id}`} hidden={view !== v.id}>{seen.has(v.id) && v.view(shared)}</div>)}
    </div>
    <footer class="kb-footer">{shortCaution}</footer>
  </div></OpenReference.Provider>;
}
