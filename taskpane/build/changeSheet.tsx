import { useEffect, useRef, useState } from "preact/hooks";
import type { ChangedRow, ChangeOfSheet, Lost, Parked, Recognised } from "../../src/checker/index.ts";
import type { Host } from "../../src/hosts/index.ts";
import { freeSheetName, withEntered, type Inputs, type Template } from "../../src/sheet/index.ts";
import { rememberBuilt, type Built } from "../built.ts";
import type { Engine } from "../engine.ts";
import { whyNot } from "../loading.ts";
import { SheetButton, type Step } from "../sheetButton.tsx";
import { FieldInput } from "./fieldInput.tsx";
import { problemOf, shapeFields, shapeValues, type Field, type Typed } from "./fields.ts";

/** What has no place on the sheets built so far: it comes back when a sheet asks for it. */
let parked: Parked = {};

const changeWords = "Change configuration or standard";

/** Fields of this form beside those of the form that builds a sheet anew. */
const formId = (id: string): string => `change-${id}`;
const fieldsOf = (template: Template): readonly Field[] =>
  shapeFields(template).map((field) => ({ ...field, id: formId(field.id) }));

interface Props {
  readonly host: Host;
  readonly engine: Engine;
  readonly sheet: string;
  readonly finished: (built: Built) => void;
  /** The version that the sheet was built with, where there is a newer one. */
  readonly older?: string | undefined;
}

/** Another configuration, version or standard, from what is typed on the sheet now. The sheet stays as it is. */
export function ChangeSheet({ host, engine, sheet, finished, older }: Props) {
  const [read, setRead] = useState<Recognised>();
  const [typed, setTyped] = useState<Typed>({});
  const [template, setTemplate] = useState<Template>();
  const [change, setChange] = useState<ChangeOfSheet>();
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
      if (now.template.source) {
        setProblem(`${sheet} follows its stress check: change that one, then build the linked sheet anew beside it.`);
        return;
      }
      setRead(now);
      setTemplate(now.template);
      setTyped(Object.fromEntries(now.template.shape.map(({ id }) => [formId(id), String(now.inputs[id] ?? "")])));
    } catch (error) {
      setProblem(`The sheet could not be read: ${whyNot(error)}`);
    }
  };
  useEffect(() => {
    setRead(undefined);
    setChange(undefined);
  }, [sheet]);

  const choose = async (id: string): Promise<void> => {
    setChange(undefined);
    try {
      setTemplate(await engine.template(id));
    } catch (error) {
      setProblem(`That standard could not be chosen: ${whyNot(error)}.`);
    }
  };
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
      setChange(await engine.changeOfSheet(read, template, shapeNow(template, typed), parked));
    } catch (error) {
      setProblem(whyNot(error));
    }
  };
  const build = async (event: Event): Promise<void> => {
    event.preventDefault();
    if (!change || abort.current) return;
    setStep({ done: 0, of: 0, what: "preparing the sheet" });
    const { signal } = (abort.current = new AbortController());
    try {
      await new Promise((next) => setTimeout(next, 20));
      const { plan, carried, entered } = change;
      const sheetName = freeSheetName(sheet, await host.sheetNames());
      const marks = entered.flatMap(({ row, column, value }) =>
        typeof value === "string" || typeof value === "number" ? [{ row, column, value }] : [],
      );
      const built = await host.apply(withEntered(plan, marks), {
        sheetName,
        progress: (done, of, what) => setStep({ done, of, what }),
        signal,
      });
      const formulas = entered.filter(({ formula }) => formula !== undefined);
      if (formulas.length > 0) await host.enterAll(built.sheet, formulas);
      ({ parked } = carried);
      rememberBuilt(plan, built.sheet);
      finished({ sheet: built.sheet, plan });
    } catch (error) {
      setProblem(`The changed sheet was not built; ${sheet} is as it was. ${whyNot(error)}`);
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
      <summary>{older ? `Upgrade from version ${older}, or change configuration or standard` : changeWords}</summary>
      <div role="alert">{problem && <p class="kb-problem">{problem}</p>}</div>
      {read && template && (
        <form noValidate onSubmit={(e) => void build(e)}>
          <p class="kb-hint">
            Starts from what is typed on {sheet} now. A new sheet is built beside it; delete the old one once you accept
            the new.
            {read.head.templateVersion !== read.template.version &&
              ` ${sheet} was built with version ${read.head.templateVersion} of its template; the new one has ` +
                `${read.template.version}. To upgrade, leave the fields as they are.`}
          </p>
          <div class="kb-field">
            <label for="kb-change-standard">Standard</label>
            <select id="kb-change-standard" value={template.id} onChange={(e) => void choose(e.currentTarget.value)}>
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
                setChange(undefined);
              }}
            />
          ))}
          <p>
            <button type="button" onClick={() => void show()}>
              Show what changes
            </button>
          </p>
          <div aria-live="polite">{change && <Changed change={change} />}</div>
          {change && (
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

/** What a list of changed rows says of each. */
const rowChangeWords: Readonly<Record<ChangedRow["change"], string>> = {
  unit: "another unit",
  formula: "another formula",
  verdict: "another verdict",
  computed: "typed before, computed now",
  asked: "computed before, an input now",
  new: "new",
  gone: "no longer there",
  label: "other words",
};

const shown = ({ text, where, value, unit }: Lost): string =>
  `${text}${where && `, ${where}`} = ${value}${unit === "–" ? "" : ` ${unit}`}`;

function Changed({ change }: { readonly change: ChangeOfSheet }) {
  const { overall, checks, checksAlike, rows } = change;
  return (
    <>
      <p>
        Overall verdict now {overall.before || "none"}, on the new sheet <strong>{overall.after}</strong>.{" "}
        {checks.length === 0
          ? `All ${checksAlike} checks stay as they are.`
          : `${checksAlike} checks stay as they are.`}
      </p>
      {checks.length > 0 && (
        <div class="kb-scroll" tabIndex={0} role="group" aria-label="Checks that change">
          <table class="kb-table">
            <caption class="kb-hidden">Checks that change, now and on the new sheet</caption>
            <thead>
              <tr>
                <th scope="col">check</th>
                <th scope="col">now</th>
                <th scope="col">new sheet</th>
              </tr>
            </thead>
            <tbody>
              {checks.map(({ description, before, after }) => (
                <tr key={description}>
                  <th scope="row">{description}</th>
                  <td>{stateText(before)}</td>
                  <td>{stateText(after)}</td>
                </tr>
              ))}
            </tbody>
          </table>
        </div>
      )}
      {rows.length > 0 && <ChangedRows rows={rows} />}
      <Carried change={change} />
    </>
  );
}

const stateText = ({ utilisation, verdict }: { readonly utilisation: string; readonly verdict: string }): string =>
  `${utilisation} ${verdict}`.trim() || "–";

/** What a row says of itself: its unit or words before and after, or that it is to be filled in. */
function detailOf({ change, before, after, input }: ChangedRow): string {
  if (change === "unit" || change === "label") return `${before || "–"} → ${after || "–"}`;
  return change === "new" && input ? "to be filled in, unless it has a default" : "";
}

function ChangedRows({ rows }: { readonly rows: readonly ChangedRow[] }) {
  return (
    <details>
      <summary>
        {rows.length} row{rows.length === 1 ? "" : "s"} of the template changed
      </summary>
      <ul class="kb-plain">
        {rows.map((row) => (
          <li key={`${row.id} ${row.change}`}>
            {row.text} <span class="kb-hint">{rowChangeWords[row.change]}</span>
            <div class="kb-hint">{detailOf(row)}</div>
          </li>
        ))}
      </ul>
    </details>
  );
}

function Carried({ change }: { readonly change: ChangeOfSheet }) {
  const { kept, lost, assumed } = change.carried;
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
      <p class="kb-hint">Checkers’ marks and revisions stay on the old sheet: the new one has not been checked.</p>
    </>
  );
}
