import { useEffect, useMemo, useRef, useState } from "preact/hooks";
import type { Host } from "../../src/hosts/index.ts";
import { builtOn, onBuilt, onForgotten, type Built } from "../built.ts";
import type { Engine } from "../engine.ts";
import { LaterView } from "../laterView.tsx";
import type { OfficeTemplates } from "../templates/loaded.ts";
import { whyNot } from "../loading.ts";
import { scrollInView, scrollToTop } from "../scroll.ts";
import { useOfficeTemplates } from "../templates/useOfficeTemplates.ts";
import { useRunning, type Running } from "./running.ts";
import type { Way } from "./stressCheckForm.tsx";
import { TemplateList } from "./templateList.tsx";
import { servedName } from "./officeDefaults.ts";
import { useOffice } from "./useOffice.ts";
import { useUnknownSheet } from "./unknownSheet.ts";

const loadResult = () => import("./result.tsx").then((m) => m.Result);
const loadChange = () => import("./changeSheet.tsx").then((m) => m.ChangeSheet);
const loadKeep = () => import("../templates/keepForm.tsx").then((m) => m.KeepForm);
const loadTemplatesBox = () => import("../templates/templatesBox.tsx").then((m) => m.TemplatesBox);
const loadMissing = () => import("../templates/notATemplates.tsx").then((m) => m.NotATemplates);
const loadLinked = () => import("./linkedForm.tsx").then((m) => m.LinkedForm);

/** The form of a sheet that stands by itself, with its template. */
async function stressCheckForm(engine: Engine, id: string) {
  const [{ StressCheckForm }, template] = await Promise.all([import("./stressCheckForm.tsx"), engine.template(id)]);
  // What fails here fails again, with its message, when the result is to be shown.
  loadResult().catch((error: unknown) => console.warn(error));
  // Shipped templates ask all that the questions are for.
  const quick = template.office === undefined || (await engine.hasQuickStart(template));
  return (given: Omit<Parameters<typeof StressCheckForm>[0], "template" | "quick">) => (
    <StressCheckForm {...given} template={template} quick={quick} />
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
  // Lists follow what is loaded of offices.
  const ofOffices = useOfficeTemplates();
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
      {unknown?.title === undefined && unknown && (
        <LaterView
          key={unknown.sheet}
          title="What the sheet says of its template"
          load={loadMissing}
          given={{ id: "build", host, sheet: unknown.sheet, again: forgetUnknown }}
        />
      )}
      {unknown?.title !== undefined && (
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
          ofOffices={ofOffices}
          touch={() => {
            touched.current = true;
          }}
        />
      </div>
      <OpenedLater summary="Keep a sheet as a template" title="The form" load={loadKeep} given={{ host }} />
    </>
  );
}

/** Folded away, and loaded when it is first opened. */
function OpenedLater<Given extends object>({
  summary,
  ...later
}: Parameters<typeof LaterView<Given>>[0] & { readonly summary: string }) {
  const [isOpened, setOpened] = useState(false);
  return (
    <details class="kb-office" onToggle={(event) => event.currentTarget.open && setOpened(true)}>
      <summary>{summary}</summary>
      {isOpened && <LaterView {...later} />}
    </details>
  );
}

/** "2, and 1 file was not taken" */
function countText({ loaded, notTaken, isReading }: OfficeTemplates): string {
  if (isReading) return "being read …";
  const count = loaded.length === 0 ? "none" : String(loaded.length);
  return notTaken.length === 0 ? count : `${count}; ${notTaken.length} not taken`;
}

function Form({
  host,
  engine,
  running,
  finished,
  touch,
  ofOffices,
}: {
  readonly host: Host;
  readonly engine: Engine;
  readonly running: Running;
  readonly finished: (built: Built) => void;
  readonly touch: () => void;
  readonly ofOffices: OfficeTemplates;
}) {
  const [id, setId] = useState<string>();
  // Another version, once it is loaded, takes the place of the one before.
  const chosen = [...engine.templates, ...engine.choosingTemplates, ...engine.linkedTemplates].find(
    (one) => one.id === id,
  );
  const version = `${chosen?.id} ${chosen?.version}`;
  const [way, setWay] = useState<Way>("form");
  const isLinked = chosen?.source !== undefined;
  const load = useMemo(() => () => stressCheckForm(engine, chosen?.id ?? ""), [engine, version]);
  // Not before a template is to be filled.
  const office = useOffice(engine, chosen !== undefined && !isLinked);
  const heading = useRef<HTMLHeadingElement>(null);
  // The arrow keys go through the templates one by one, and their list stays in view; Enter or Space goes to the form.
  const toForm = (): void => {
    scrollInView(heading.current);
    heading.current?.focus({ preventScroll: true });
  };
  const byPointer = useRef(false);
  useEffect(() => {
    if (id !== undefined && byPointer.current) scrollInView(heading.current);
  }, [id]);
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
      <div
        onPointerDown={() => {
          byPointer.current = true;
        }}
        onKeyDown={(event) => {
          byPointer.current = false;
          const isChoice = event.target instanceof HTMLInputElement && event.target.type === "radio";
          if (!isChoice || (event.key !== "Enter" && event.key !== " ")) return;
          // The space bar chooses one that is not chosen yet: its form is there after that.
          if (event.target.checked) toForm();
          else if (event.key === " ") byPointer.current = true;
        }}
      >
        <TemplateList
          templates={engine.templates}
          choosing={engine.choosingTemplates}
          linked={engine.linkedTemplates}
          chosen={chosen}
          choose={(one) => {
            touch();
            setId(one.id);
          }}
        />
      </div>
      <OpenedLater
        summary={`Templates of the office: ${countText(ofOffices)}`}
        title="Templates of the office"
        load={loadTemplatesBox}
        given={{ touch }}
      />
      {chosen !== undefined && (
        <section class="kb-chosen" aria-label={`Form: ${chosen.title}`}>
          <h2 ref={heading} tabIndex={-1}>
            {chosen.title}
          </h2>
          {chosen.source !== undefined && (
            <LaterView
              key={version}
              title="The form"
              load={loadLinked}
              given={{ host, engine, template: chosen, running, finished }}
            />
          )}
          {!isLinked && (
            <LaterView
              key={version}
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
        </section>
      )}
    </>
  );
}
