import { useEffect, useState } from "preact/hooks";
import { logoToTake, type Host } from "../../src/hosts/index.ts";
import { freeSheetName, withLogo } from "../../src/sheet/index.ts";
import type { TemplateEntry } from "../../src/templates/catalogue.ts";
import { rememberBuilt, type Built } from "../built.ts";
import type { Engine } from "../engine.ts";
import { whyNot } from "../loading.ts";
import { SheetButton } from "../sheetButton.tsx";
import { useBuild } from "../useBuild.ts";
import { notBuilt } from "./outcome.ts";
import type { Running } from "./running.ts";

interface Props {
  readonly host: Host;
  readonly engine: Engine;
  /** A linked one. */
  readonly template: TemplateEntry;
  /** The source; without it the form asks for one. */
  readonly source?: string;
  readonly running: Running;
  readonly finished: (built: Built) => void;
}

/** What the sheets are called that a linked one can take from. */
const titleOfSource = ({ templates }: Engine, { source }: TemplateEntry): string =>
  templates.find(({ id }) => id === source)?.title ?? "";

/** A linked sheet from a sheet of its source: which one, where that is not known, and the button that builds. */
export function LinkedForm({ host, engine, template, source, running, finished }: Props) {
  const [sources, setSources] = useState<readonly string[] | undefined>(source === undefined ? undefined : [source]);
  const [chosen, setChosen] = useState(source);
  const [failure, setFailure] = useState("");
  const { step, cancel, run } = useBuild(running);
  useEffect(() => {
    let live = true;
    if (source !== undefined) return;
    engine.sheetsOf(host, template.source!).then(
      (found) => {
        if (!live) return;
        setSources(found);
        setChosen(found[0]);
      },
      (error: unknown) => {
        if (live) setFailure(`The sheets could not be read: ${whyNot(error)}.`);
      },
    );
    return () => {
      live = false;
    };
  }, [host, engine, template, source]);

  const build = (event: Event): void => {
    event.preventDefault();
    if (chosen === undefined) return;
    void run(
      "reading the source",
      async ({ signal, progress }) => {
        setFailure("");
        const linked = await engine.linkedPlan(host, template.id, chosen);
        const { logo, without } = await logoToTake(host, chosen);
        const plan = withLogo(linked, logo);
        const sheetName = freeSheetName(template.title, await host.sheetNames());
        const { sheet } = await host.apply(plan, { sheetName, progress, signal });
        finished(rememberBuilt(plan, sheet, without));
      },
      (error) => setFailure(notBuilt("The linked sheet", `${chosen} is as it was`, error)),
    );
  };

  const wanted = titleOfSource(engine, template);
  return (
    <form class="kb-form" noValidate onSubmit={build}>
      {source === undefined && (
        <SourceChoice
          id={`kb-source-${template.id}`}
          wanted={wanted}
          sources={sources}
          chosen={chosen}
          choose={setChosen}
        />
      )}
      <div role="alert">{failure && <p class="kb-problem">{failure}</p>}</div>
      <SheetButton
        id={`kb-progress-${template.id}`}
        label={source === undefined ? "Build the linked sheet" : `Build: ${template.title}`}
        doing="Building the linked sheet"
        step={step}
        disabled={chosen === undefined || running.some}
        cancel={cancel}
      />
    </form>
  );
}

function SourceChoice({
  id,
  wanted,
  sources,
  chosen,
  choose,
}: {
  readonly id: string;
  readonly wanted: string;
  readonly sources: readonly string[] | undefined;
  readonly chosen: string | undefined;
  readonly choose: (sheet: string) => void;
}) {
  if (sources?.length === 0)
    return <p class="kb-hint">This workbook has no such sheet to link to. Build the stress check “{wanted}” first.</p>;
  return (
    <div class="kb-field">
      <label for={id}>Stress-check sheet to link to</label>
      <select id={id} value={chosen ?? ""} onChange={(e) => choose(e.currentTarget.value)}>
        {(sources ?? []).map((name) => (
          <option key={name} value={name}>
            {name}
          </option>
        ))}
      </select>
    </div>
  );
}

/** Below the result of a sheet: the linked sheets that take from it, or the sheet that it takes from. */
export function LinkedSheets({
  host,
  engine,
  built,
  running,
  finished,
}: Pick<Props, "host" | "engine" | "running" | "finished"> & { readonly built: Built }) {
  const { id } = built.plan.template;
  const own = engine.linkedTemplates.find((template) => template.id === id);
  const taking = engine.linkedTemplates.filter(({ source }) => source === id);
  return (
    <>
      {taking.length > 0 && (
        <section aria-label="Linked sheets">
          <h3>Linked sheets</h3>
          <p class="kb-hint">Sheets of their own that take their values from this one and follow it.</p>
          {taking.map((template) => (
            <LinkedForm
              key={template.id}
              host={host}
              engine={engine}
              template={template}
              source={built.sheet}
              running={running}
              finished={finished}
            />
          ))}
        </section>
      )}
      {own && <LinkAgain key={built.sheet} host={host} engine={engine} template={own} sheet={built.sheet} />}
    </>
  );
}

function LinkAgain({
  host,
  engine,
  template,
  sheet,
}: Pick<Props, "host" | "engine" | "template"> & { readonly sheet: string }) {
  const [sources, setSources] = useState<readonly string[]>();
  const [chosen, setChosen] = useState<string>();
  const [said, setSaid] = useState("");
  const [working, setWorking] = useState(false);
  const look = (): Promise<void> =>
    engine.sheetsOf(host, template.source!).then(
      (found) => {
        setSources(found);
        setChosen(found[0]);
      },
      (error: unknown) => setSaid(`The sheets could not be read: ${whyNot(error)}.`),
    );
  const link = async (): Promise<void> => {
    if (chosen === undefined || working) return;
    setWorking(true);
    try {
      const count = await engine.linkAgain(host, sheet, chosen);
      setSaid(`${count} cells are linked to ${chosen}.`);
    } catch (error) {
      setSaid(whyNot(error));
    } finally {
      setWorking(false);
    }
  };
  return (
    <details
      class="kb-again"
      onToggle={(e) => {
        if (e.currentTarget.open) void look();
      }}
    >
      <summary>Link to another sheet</summary>
      <p class="kb-hint">After the source was deleted and built anew, or in another workbook. Inputs and marks stay.</p>
      <SourceChoice
        id="kb-source-again"
        wanted={titleOfSource(engine, template)}
        sources={sources}
        chosen={chosen}
        choose={setChosen}
      />
      <button type="button" disabled={chosen === undefined || working} onClick={() => void link()}>
        Link again
      </button>
      <p role="status">{said}</p>
    </details>
  );
}
