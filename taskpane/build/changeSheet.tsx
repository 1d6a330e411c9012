import { useEffect, useRef, useState } from "preact/hooks";
import { reasonOf } from "../../src/core/index.ts";
import type { CarriedOver, Lost, Parked, Recognised } from "../../src/checker/index.ts";
import type { Host } from "../../src/hosts/index.ts";
import { freeSheetName, type Inputs, type Template } from "../../src/sheet/index.ts";
import { rememberBuilt, type Built } from "../built.ts";
import type { Engine } from "../engine.ts";
import { SheetButton, type Step } from "../sheetButton.tsx";
import { FieldInput } from "./fieldInput.tsx";
import { problemOf, shapeFields, shapeValues, type Field, type Typed } from "./fields.ts";

/** What has no place on the sheets built so far: it comes back when a sheet asks for it. */
let parked: Parked = {};

/** Fields of this form beside those of the form that builds a sheet anew. */
const formId = (id: string): string => `change-${id}`;
const fieldsOf = (template: Template): readonly Field[] =>
  shapeFields(template).map((field) => ({ ...field, id: formId(field.id) }));

interface Props {
  readonly host: Host;
  readonly engine: Engine;
  readonly sheet: string;
  readonly finished: (built: Built) => void;
}

/** Another configuration, version or standard, from what is typed on the sheet now. The sheet stays as it is. */
export function ChangeSheet({ host, engine, sheet, finished }: Props) {
  const [read, setRead] = useState<Recognised>();
  const [typed, setTyped] = useState<Typed>({});
  const [templateId, setTemplateId] = useState("");
  const [carried, setCarried] = useState<CarriedOver>();
  const [problem, setProblem] = useState("");
  const [step, setStep] = useState<Step>();
  const abort = useRef<AbortController>();

  const start = async (): Promise<void> => {
    setProblem("");
    try {
      const now = await engine.recognise(host, sheet);
      if (!now) {
        setProblem(`${sheet} was not built by a template of this version: it can't be changed from here.`);
        return;
      }
      setRead(now);
      setTemplateId(now.template.id);
      setTyped(Object.fromEntries(now.template.shape.map(({ id }) => [formId(id), String(now.inputs[id] ?? "")])));
    } catch (error) {
      setProblem(`The sheet could not be read: ${reasonOf(error)}`);
    }
  };
  useEffect(() => {
    setRead(undefined);
    setCarried(undefined);
  }, [sheet]);

  const template = engine.templates.find(({ id }) => id === templateId);
  const problems = new Map(
    (template ? fieldsOf(template) : []).flatMap((field) => {
      const wrong = problemOf(field, typed[field.id] ?? field.default);
      return wrong === undefined ? [] : [[field.id, wrong] as const];
    }),
  );
  const show = async (): Promise<void> => {
    if (!read || !template) return;
    setProblem([...problems.values()].join(" "));
    if (problems.size > 0) return;
    try {
      setCarried(await engine.carryOver(read, template, shapeNow(template, typed), parked));
    } catch (error) {
      setProblem(reasonOf(error));
    }
  };
  const build = async (event: Event): Promise<void> => {
    event.preventDefault();
    if (!carried || abort.current) return;
    setStep({ done: 0, of: 0, what: "preparing the sheet" });
    const { signal } = (abort.current = new AbortController());
    try {
      await new Promise((next) => setTimeout(next, 20));
      const plan = engine.expand(carried.template, carried.inputs);
      const sheetName = freeSheetName(sheet, await host.sheetNames());
      const built = await host.apply(plan, {
        sheetName,
        progress: (done, of, what) => setStep({ done, of, what }),
        signal,
      });
      ({ parked } = carried);
      rememberBuilt(plan, built.sheet);
      finished({ sheet: built.sheet, plan });
    } catch (error) {
      setProblem(`The changed sheet was not built; ${sheet} is as it was. ${reasonOf(error)}`);
    } finally {
      abort.current = undefined;
      setStep(undefined);
    }
  };

  const sameMethod = engine.templates.filter(
    ({ id }) => read && id.startsWith(read.template.id.split("-", 2).join("-")),
  );
  return (
    <details class="kb-change" onToggle={(e) => e.currentTarget.open && !read && void start()}>
      <summary>Change configuration or standard</summary>
      <div role="alert">{problem && <p class="kb-problem">{problem}</p>}</div>
      {read && template && (
        <form noValidate onSubmit={(e) => void build(e)}>
          <p class="kb-hint">
            Starts from what is typed on {sheet} now. A new sheet is built beside it; delete the old one once you accept
            the new.
            {read.head.templateVersion !== read.template.version &&
              ` ${sheet} was built with version ${read.head.templateVersion}; the new one has ${read.template.version}.`}
          </p>
          <div class="kb-field">
            <label for="kb-change-standard">Standard</label>
            <select
              id="kb-change-standard"
              value={templateId}
              onChange={(e) => {
                setTemplateId(e.currentTarget.value);
                setCarried(undefined);
              }}
            >
              {sameMethod.map(({ id, standard }) => (
                <option key={id} value={id}>
                  {standard}
                </option>
              ))}
            </select>
          </div>
          {fieldsOf(template).map((f) => (
            <FieldInput
              key={f.id}
              field={f}
              typed={typed}
              problems={problems}
              put={(key, text) => {
                setTyped((t) => ({ ...t, [key]: text }));
                setCarried(undefined);
              }}
            />
          ))}
          <p>
            <button type="button" onClick={() => void show()}>
              Show what is carried over
            </button>
          </p>
          <div aria-live="polite">{carried && <Carried carried={carried} />}</div>
          {carried && (
            <SheetButton
              id="kb-change-progress"
              label="Build the changed sheet"
              doing="Building the changed sheet"
              step={step}
              cancel={() => abort.current?.abort()}
            />
          )}
        </form>
      )}
    </details>
  );
}

function shapeNow(template: Template, typed: Typed): Inputs {
  const own = Object.fromEntries(
    template.shape.flatMap(({ id }) => {
      const text = typed[formId(id)];
      return text === undefined ? [] : [[id, text] as const];
    }),
  );
  return shapeValues(template, own);
}

const shown = ({ text, where, value, unit }: Lost): string =>
  `${text}${where && `, ${where}`} = ${value}${unit === "–" ? "" : ` ${unit}`}`;

function Carried({ carried }: { readonly carried: CarriedOver }) {
  const { kept, lost, assumed } = carried;
  const members = [...new Set(assumed.map(({ where }) => where.split(",")[0]!))];
  return (
    <>
      <p>
        {kept} value{kept === 1 ? "" : "s"} carried over; {lost.length === 0 ? "none is lost." : `${lost.length} not:`}
      </p>
      {lost.length > 0 && (
        <ul class="kb-plain">
          {lost.map((one) => (
            <li key={`${one.id} ${one.where}`}>
              {shown(one)}
              <div class="kb-hint">{one.why}</div>
            </li>
          ))}
        </ul>
      )}
      {members.length > 0 && <p>Assumed like the one before, check it: {members.join("; ")}.</p>}
    </>
  );
}
