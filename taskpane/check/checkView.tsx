import { useState } from "preact/hooks";
import type { Host, Place } from "../../src/hosts/index.ts";
import { LaterView } from "../laterView.tsx";
import { useWorkbook } from "../useWorkbook.ts";
import { tools } from "./tools.ts";

/**
 * The checker's tools, one at a time; each keeps its state while another is looked at, until another workbook is opened:
 * what was found of the one before is nothing of that.
 */
export function CheckView({
  host,
  trace,
  select,
}: {
  readonly host: Host;
  readonly trace: (place: Place) => void;
  readonly select: (place: Place) => void;
}) {
  const workbook = useWorkbook();
  const [chosen, setChosen] = useState(tools[0]?.id);
  const [seen, setSeen] = useState<ReadonlySet<string | undefined>>(new Set([chosen]));
  const choose = (id: string): void => {
    setChosen(id);
    setSeen((before) => new Set([...before, id]));
  };
  return (
    <section class="kb-check" aria-label="Check">
      <fieldset class="kb-tools">
        <legend class="kb-hidden">What to check</legend>
        <div>
          {tools.map(({ id, title }) => (
            <label key={id}>
              <input type="radio" name="kb-tool" checked={chosen === id} onChange={() => choose(id)} /> {title}
            </label>
          ))}
        </div>
      </fieldset>
      {tools
        .filter(({ id }) => seen.has(id))
        .map(({ id, title, load }) => (
          <div key={id} hidden={chosen !== id}>
            <h2>{title}</h2>
            <LaterView key={workbook} title={title} load={load} given={{ host, go: select, trace }} />
          </div>
        ))}
    </section>
  );
}
