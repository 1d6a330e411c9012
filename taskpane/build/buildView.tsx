import { useEffect, useMemo, useRef, useState } from "preact/hooks";
import type { Host } from "../../src/hosts/index.ts";
import type { TemplateEntry } from "../../src/templates/catalogue.ts";
import { builtOn, onBuilt, onForgotten, type Built } from "../built.ts";
import type { Engine } from "../engine.ts";
import { LaterView } from "../laterView.tsx";
import { whyNot } from "../loading.ts";
import { scrollToTop } from "../scroll.ts";
import { useRunning, type Running } from "./running.ts";
import type { Way } from "./stressCheckForm.tsx";
import { TemplateList } from "./templateList.tsx";
import { servedName } from "./officeDefaults.ts";
import { useOffice } from "./useOffice.ts";
import { useUnknownSheet } from "./unknownSheet.ts";

const loadResult = () => import("./result.tsx").then((m) => m.Result);
const loadChange = () => import("./changeSheet.tsx").then((m) => m.ChangeSheet);
const loadLinked = () => import("./linkedForm.tsx").then((m) => m.LinkedForm);

/** The form of a sheet that stands by itself, with its template. */
async function stressCheckForm(engine: Engine, id: string) {
  const [{ StressCheckForm }, template] = await Promise.all([import("./stressCheckForm.tsx"), engine.template(id)]);
  // What fails here fails again, with its message, when the result is to be shown.
  loadResult().catch((error: unknown) => console.warn(error));
  return (given: Omit<Parameters<typeof StressCheckForm>[0], "template">) => (
    <StressCheckForm {...given} template={template} />
  );
}

/** From a template to a sheet in the workbook, and what that sheet says. */
export function BuildView({ host, engine }: { readonly host: Host; readonly engine: Engine }) {
  const [built, setBuilt] = useState<Built>();
  const [last, setLast] = useState<Built>();
  const [problem, setProblem] = useState<string>();
  const touched = useRef(false);
  const form = useRef<HTMLDivElement>(null);
  const [again, setAgain] = useState(0);
  const running = useRunning();
  const [unknown, forgetUnknown] = useUnknownSheet(host, engine, running.isNow);
  const [arrived, setArrived] = useState(0);
  const toFocus = useRef(false);
  useEffect(() => {
    if (again === 0) return;
    scrollToTop(form.current);
    const first =
      form.current?.querySelector<HTMLElement>("input:checked") ?? form.current?.querySelector<HTMLElement>("input");
    first?.focus({ preventScroll: true });
  }, [again]);
  useEffect(() => {
    let live = true;
    const show = (b: Built | undefined): void => {
      if (live && b && !touched.current && !running.isNow()) setBuilt(b);
    };
    host.selection().then(
      (at) => show(at && builtOn(at.sheet)),
      (error: unknown) => {
        if (live)
          setProblem(
            `The selection could not be read: ${whyNot(error)}. Select a cell of a built sheet to see its result.`,
          );
      },
    );
    const ends = [
      onBuilt(show),
      onForgotten(() => setBuilt(undefined)),
      host.onSelection((at) => {
        if (live) setProblem(undefined);
        show(builtOn(at.sheet));
      }),
    ];
    return () => {
      live = false;
      for (const end of ends) end();
    };
  }, [host]);
  const finished = (b: Built): void => {
    touched.current = false;
    toFocus.current = true;
    setBuilt(b);
    forgetUnknown();
    setArrived((n) => n + 1);
  };
  // The form stays mounted behind a result, so that nothing typed is lost.
  return (
    <>
      {problem && (
        <p class="kb-problem" role="alert">
          {problem}
        </p>
      )}
      {built && (
        <LaterView
          title="The result"
          load={loadResult}
          given={{
            host,
            engine,
            built,
            arrived,
            toFocus,
            running,
            finished,
            again: () => {
              touched.current = true;
              setLast(built);
              setBuilt(undefined);
              setAgain((n) => n + 1);
            },
          }}
        />
      )}
      {unknown && (
        <section class="kb-result-view" aria-label="Sheet of another version">
          <p>
            {unknown.sheet} is a check sheet “{unknown.title}” of version {unknown.version}, whose rows stand otherwise
            than they are built today ({unknown.today}).
          </p>
          <LaterView
            key={unknown.sheet}
            title="The form"
            load={loadChange}
            given={{ host, engine, sheet: unknown.sheet, running, finished, older: unknown.version }}
          />
        </section>
      )}
      <div ref={form} hidden={built !== undefined}>
        {last && (
          <p>
            <button type="button" class="kb-link" onClick={() => finished(last)}>
              Back to the result of {last.sheet}
            </button>
          </p>
        )}
        <Form
          host={host}
          engine={engine}
          running={running}
          finished={finished}
          touch={() => {
            touched.current = true;
          }}
        />
      </div>
    </>
  );
}

function Form({
  host,
  engine,
  running,
  finished,
  touch,
}: {
  readonly host: Host;
  readonly engine: Engine;
  readonly running: Running;
  readonly finished: (built: Built) => void;
  readonly touch: () => void;
}) {
  const only = engine.templates.length === 1 ? engine.templates[0] : undefined;
  const [chosen, setChosen] = useState<TemplateEntry | undefined>(only);
  const [way, setWay] = useState<Way>("form");
  const isLinked = chosen?.source !== undefined;
  const load = useMemo(() => () => stressCheckForm(engine, chosen?.id ?? ""), [engine, chosen]);
  // Not before a template is to be filled.
  const office = useOffice(engine, chosen !== undefined && !isLinked);
  return (
    <>
      {office.refused.length > 0 && (
        <p class="kb-problem" role="alert">
          {office.from === "served"
            ? `The office defaults served at this address (${servedName})`
            : "The office defaults kept in this browser"}{" "}
          were not taken, and a sheet built now is without them: {office.refused.join("; ")}. Choose a file, or{" "}
          <button type="button" class="kb-link" disabled={office.isReading} onClick={office.readAgain}>
            read them again
          </button>
          .
        </p>
      )}
      <TemplateList
        templates={engine.templates}
        choosing={engine.choosingTemplates}
        linked={engine.linkedTemplates}
        chosen={chosen}
        choose={(one) => {
          touch();
          setChosen(one);
        }}
      />
      {chosen?.source !== undefined && (
        <LaterView
          key={chosen.id}
          title="The form"
          load={loadLinked}
          given={{ host, engine, template: chosen, running, finished }}
        />
      )}
      {chosen !== undefined && !isLinked && (
        <LaterView
          key={chosen.id}
          title="The form"
          load={load}
          given={{
            host,
            engine,
            office,
            way,
            setWay,
            finished,
            touch,
            onlyForm: chosen.choosing === true,
          }}
        />
      )}
    </>
  );
}
