import type { ComponentType } from "preact";
import { useEffect, useState } from "preact/hooks";
import type { Host, Place } from "../../src/hosts/index.ts";
import type { ToolProps } from "./tool.ts";
import { tools } from "./tools.ts";

/** The checker's tools, one at a time; each keeps its state while another is looked at. */
export function CheckView({ host, trace, select }: { readonly host: Host; readonly trace: (place: Place) => void; readonly select: (place: Place) => void }) {
  const [chosen, setChosen] = useState(tools[0]?.id);
  const [views, setViews] = useState<Readonly<Record<string, ComponentType<ToolProps>>>>({});
  const [problem, setProblem] = useState("");
  useEffect(() => {
    const tool = tools.find(({ id }) => id === chosen);
    if (!tool || views[tool.id]) return;
    let live = true;
    tool.load().then((view) => { if (live) setViews((all) => ({ ...all, [tool.id]: view })); }, (error: unknown) => { if (live) setProblem(`${tool.title} could not be loaded: ${error instanceof Error ? error.message : String(error)}. Close the panel and open it again.`); });
    return () => { live = false; };
  }, [chosen, views]);
  return <section class="kb-check" aria-label="Check">
    <fieldset class="kb-tools">
      <legend>What to check</legend>
      {tools.map(({ id, title, line }) => <label key={id}><input type="radio" name="kb-tool" checked={chosen === id} onChange={() => { setProblem(""); setChosen(id); }} /> <strong>{title}</strong> <span class="kb-hint">{line}</span></label>)}
    </fieldset>
    {problem && <p class="kb-problem" role="alert">{problem}</p>}
    {tools.map(({ id, title }) => {
      const View = views[id];
      return View ? <div key={id} hidden={chosen !== id}><h2>{title}</h2><View host={host} go={select} trace={trace} /></div> : null;
    })}
  </section>;
}
