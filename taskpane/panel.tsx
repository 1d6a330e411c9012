import { useState } from "preact/hooks";
import type { Host } from "../src/hosts/index.ts";
import { BuildView } from "./build/buildView.tsx";
import { shortCaution } from "./cautions.tsx";
import type { Engine } from "./engine.ts";
import { TraceView } from "./trace/traceView.tsx";

const views = [{ id: "build", title: "Build" }, { id: "trace", title: "Trace" }] as const;
type View = (typeof views)[number]["id"];

/** The side panel: its views as tabs, all of them kept while another is looked at. */
export function Panel({ host, engine }: { readonly host: Host; readonly engine: Engine }) {
  const [view, setView] = useState<View>("build");
  const [seen, setSeen] = useState<ReadonlySet<View>>(new Set(["build"]));
  const show = (next: View): void => {
    setView(next);
    setSeen((s) => new Set([...s, next]));
  };
  const move = (event: KeyboardEvent): void => {
    const at = views.findIndex((v) => v.id === view);
    const to = { ArrowRight: (at + 1) % views.length, ArrowLeft: (at + views.length - 1) % views.length, Home: 0, End: views.length - 1 }[event.key];
    if (to === undefined) return;
    event.preventDefault();
    show(views[to]!.id);
    document.getElementById(`kb-tab-${views[to]!.id}`)?.focus();
  };
  return <div class="kb-panel">
    <div class="kb-tabs" role="tablist" aria-label="Views" onKeyDown={move}>
      {views.map((v) => <button key={v.id} type="button" role="tab" id={`kb-tab-${v.id}`} aria-controls={`kb-view-${v.id}`} aria-selected={view === v.id} tabIndex={view === v.id ? 0 : -1} onClick={() => show(v.id)}>{v.title}</button>)}
    </div>
    <div class="kb-views">
      {views.map((v) => <div key={v.id} role="tabpanel" id={`kb-view-${v.id}`} aria-labelledby={`kb-tab-${v.id}`} hidden={view !== v.id}>
        {seen.has(v.id) && (v.id === "build" ? <BuildView host={host} engine={engine} /> : <TraceView host={host} />)}
      </div>)}
    </div>
    <footer class="kb-footer">{shortCaution}</footer>
  </div>;
}
