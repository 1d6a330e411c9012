import { a1 } from "../../src/cells/index.ts";
import { Fragment } from "preact";
import { useEffect, useRef, useState } from "preact/hooks";
import type { ChangedRow, ChangeOfSheet, Lost, Parked, Recognised } from "../../src/checker/index.ts";
import { logoToTake, type Host } from "../../src/hosts/index.ts";
import { freeSheetName, withEntered, withLogo, type Inputs, type Template } from "../../src/sheet/index.ts";
import type { TemplateEntry } from "../../src/templates/catalogue.ts";
import { rememberBuilt, type Built } from "../built.ts";
import type { Engine } from "../engine.ts";
import { whyNot } from "../loading.ts";
import { SheetButton } from "../sheetButton.tsx";
import { useBuild } from "../useBuild.ts";
import { FieldInput } from "./fieldInput.tsx";
import { changeNow, NotChangeable, readNow, sameChange } from "./changeNow.ts";
import { problemOf, shapeFields, shapeValues, type Field, type Typed } from "./fields.ts";
import { notBuilt } from "./outcome.ts";
import type { Running } from "./running.ts";

/** What has no place on the sheets built so far: it comes back when a sheet asks for it. */
let parked: Parked = {};

const changeWords = "Change configuration or standard";

/** Fields of this form beside those of the form that builds a sheet anew. */
const formId = (id: string): string => `change-${id}`;
const fieldsOf = (template: Template): readonly Field[] =>
  shapeFields(template).map((field) => ({ ...field, id: formId(field.id) }));

/** What the templates of one method have in common: the id of the shipped one without the standard at its end. */
const methodOf = ({ id, root = id }: TemplateEntry): string => root.replace(/-[a-z]+\d+-\d{4}$/, "");

/** What is chosen from: the standard alone, and of an office's template also its name. */
const choiceText = ({ standard, title, office, version }: TemplateEntry): string =>
  office === undefined ? standard : `${title} (${office}, ${version}): ${standard}`;

/** Of several questions asked one after the other, only the last one's answer counts. */
function useLast(): () => () => boolean {
  const turn = useRef(0);
  return () => {
    const mine = (turn.current += 1);
    return () => mine === turn.current;
  };
}

interface Props {
  readonly host: Host;
  readonly engine: Engine;
  readonly sheet: string;
  readonly running: Running;
  readonly finished: (built: Built) => void;
  /** The version that the sheet was built with, where there is a newer one. */
  readonly older?: string | undefined;
}

/** Another configuration, version or standard, from what is typed on the sheet now. The sheet stays as it is. */
export function ChangeSheet({ host, engine, sheet, running, finished, older }: Props) {
  const [read, setRead] = useState<Recognised>();
  const [typed, setTyped] = useState<Typed>({});
  const [template, setTemplate] = useState<Template>();
  /** The standard chosen; its template may still be on its way. */
  const [wanted, setWanted] = useState("");
  const [change, setChange] = useState<ChangeOfSheet>();
  const [problem, setProblem] = useState("");
  const { step, cancel, run } = useBuild(running);
  const choosing = useLast();
  const asking = useLast();
  /** What was shown, or is being worked out, holds for something else. */
  const outdate = (): (() => boolean) => {
    setChange(undefined);
    return asking();
  };

  const start = async (): Promise<void> => {
    setProblem("");
    const isLast = choosing();
    outdate();
    try {
      const now = await readNow(engine, host, sheet);
      if (!isLast()) return;
      setRead(now);
      setTemplate(now.template);
      setWanted(now.template.id);
      setTyped(Object.fromEntries(now.template.shape.map(({ id }) => [formId(id), String(now.inputs[id] ?? "")])));
    } catch (error) {
      if (isLast()) setProblem(notReadText(error));
    }
  };
  useEffect(() => {
    choosing();
    outdate();
    setRead(undefined);
  }, [sheet]);

  const choose = async (id: string): Promise<void> => {
    const isLast = choosing();
    outdate();
    setProblem("");
    setWanted(id);
    try {
      const chosen = await engine.template(id);
      if (!isLast()) return;
      outdate();
      setTemplate(chosen);
    } catch (error) {
      if (!isLast()) return;
      setWanted(template?.id ?? "");
      setProblem(`That standard could not be chosen: ${whyNot(error)}.`);
    }
  };
  const isOnItsWay = template?.id !== wanted;
  const problems = new Map(
    (template ? fieldsOf(template) : []).flatMap((field) => {
      const wrong = problemOf(field, typed[field.id] ?? field.default);
      return wrong === undefined ? [] : [[field.id, wrong] as const];
    }),
  );
  const asked = (of: Template) => ({ sheet, template: of, shape: shapeNow(of, typed), parked });
  const show = async (): Promise<void> => {
    if (!read || !template || isOnItsWay) return;
    const isLast = outdate();
    setProblem([...problems.values()].join(" "));
    if (problems.size > 0) return;
    try {
      const found = await changeNow(engine, host, asked(template));
      if (isLast()) setChange(found);
    } catch (error) {
      if (isLast()) setProblem(whyNot(error));
    }
  };
  const build = (event: Event): void => {
    event.preventDefault();
    if (!change || !template) return;
    void run(
      "reading the sheet",
      async ({ signal, progress }) => {
        setProblem("");
        // The sheet may have been edited since the changes were shown.
        const now = await changeNow(engine, host, asked(template));
        signal.throwIfAborted();
        if (!sameChange(change, now)) {
          outdate();
          setChange(now);
          setProblem(`${sheet} has changed since its changes were shown. They are shown anew: check them, then build.`);
          return;
        }
        progress(0, 0, "preparing the sheet");
        const { plan, carried, marks, formulas } = now;
        const sheetName = freeSheetName(now.name, await host.sheetNames());
        const { logo, without } = await logoToTake(host, sheet);
        const marked = withLogo(withEntered(plan, marks), logo);
        const built = await host.apply(marked, { sheetName, progress, signal });
        ({ parked } = carried);
        const notEntered = await enterFormulas(host, built.sheet, formulas);
        const remembered = rememberBuilt(plan, built.sheet, without);
        if (notEntered === undefined) finished(remembered);
        else {
          setChange(undefined);
          setProblem(notEntered);
        }
      },
      (error) => setProblem(notBuilt("The changed sheet", `${sheet} is as it was`, error)),
    );
  };

  const all = [...engine.templates, ...engine.choosingTemplates];
  const own = all.find(({ id }) => id === read?.template.id);
  const sameMethod = own ? all.filter((one) => methodOf(one) === methodOf(own)) : [];
  return (
    <details class="kb-change" onToggle={(e) => e.currentTarget.open && !read && void start()}>
      <summary>{older ? `Upgrade from version ${older}, or change configuration or standard` : changeWords}</summary>
      <div role="alert">{problem && <p class="kb-problem">{problem}</p>}</div>
      {read && template && (
        <form noValidate onSubmit={build}>
          <p class="kb-hint">
            Starts from what is typed on {sheet} at the moment you press the button. A new sheet is built beside it;
            delete the old one once you accept the new.
            {read.head.templateVersion !== read.template.version &&
              ` ${sheet} was built with version ${read.head.templateVersion} of its template; the new one has ` +
                `${read.template.version}. To upgrade, leave the fields as they are.`}
          </p>
          <div class="kb-field">
            <label for="kb-change-standard">
              {sameMethod.some(({ office }) => office) ? "Standard or template" : "Standard"}
            </label>
            <select id="kb-change-standard" value={wanted} onChange={(e) => void choose(e.currentTarget.value)}>
              {sameMethod.map((one) => (
                <option key={one.id} value={one.id}>
                  {choiceText(one)}
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
                outdate();
              }}
            />
          ))}
          <p>
            <button type="button" disabled={isOnItsWay} onClick={() => void show()}>
              Show what changes
            </button>
            {isOnItsWay && <span class="kb-hint"> The standard is being loaded …</span>}
          </p>
          <div aria-live="polite">{change && <Changed change={change} />}</div>
          {(change || step) && (
            <SheetButton
              id="kb-change-progress"
              label="Build the changed sheet"
              doing="Building the changed sheet"
              step={step}
              disabled={running.some}
              cancel={cancel}
            />
          )}
        </form>
      )}
    </details>
  );
}

const notReadText = (error: unknown): string =>
  error instanceof NotChangeable ? error.message : `The sheet could not be read: ${whyNot(error)}`;

/** Enters the formulas that were typed into inputs; where that fails, what the new sheet has instead. */
async function enterFormulas(host: Host, sheet: string, cells: ChangeOfSheet["formulas"]): Promise<string | undefined> {
  if (cells.length === 0) return undefined;
  try {
    await host.enterAll(sheet, cells);
    return undefined;
  } catch (error) {
    const list = cells.map((cell) => `${a1(cell)} ${cell.formula}`).join("; ");
    return (
      `The changed sheet is built as ${sheet}, but these formulas could not be written into its inputs: ${list}. ` +
      `Each cell holds the value that its formula had, and does not follow any more: enter them by hand. ${whyNot(error)}`
    );
  }
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
          ? `${checksAlike === 1 ? "The one check stays as it is" : `All ${checksAlike} checks stay as they are`}.`
          : `${checksAlike === 1 ? "1 check stays as it is" : `${checksAlike} checks stay as they are`}.`}
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

/** Values that are lost for the same reason stand below it. */
function byReason(lost: readonly Lost[]): readonly (readonly [why: string, values: readonly Lost[]])[] {
  const reasons = [...new Set(lost.map(({ why }) => why))];
  return reasons.map((why) => [why, lost.filter((one) => one.why === why)] as const);
}

function Carried({ change }: { readonly change: ChangeOfSheet }) {
  const { kept, lost, assumed } = change.carried;
  const { members } = change;
  const ofProduct = assumed.flatMap(({ id, where, value }) => {
    const said = where === "" ? change.plan.meanings.find((one) => one.id === id) : undefined;
    return said ? [`${said.item} ${said.description.split(";")[0]!} = ${value}`] : [];
  });
  return (
    <>
      <p>
        {kept} value{kept === 1 ? "" : "s"} carried over; {lost.length === 0 ? "none is lost." : `${lost.length} not:`}
      </p>
      {byReason(lost).map(([why, values]) => (
        <Fragment key={why}>
          <p class="kb-hint">
            {why[0]!.toUpperCase()}
            {why.slice(1)}:
          </p>
          <ul class="kb-plain">
            {values.map((one) => (
              <li key={`${one.id} ${one.where}`}>{shown(one)}</li>
            ))}
          </ul>
        </Fragment>
      ))}
      {ofProduct.length > 0 && (
        <p>The product is not on the new list; its values were typed instead: {ofProduct.join("; ")}.</p>
      )}
      {members.length > 0 && (
        <p>Assumed like the one before, check each: {members.map(({ text }) => text).join("; ")}.</p>
      )}
      {members.some(({ place }) => place !== "") && (
        <p>{members.flatMap(({ place }) => (place === "" ? [] : [place])).join("; ")}.</p>
      )}
      <p class="kb-hint">Checkers’ marks and revisions stay on the old sheet: the new one has not been checked.</p>
    </>
  );
}
