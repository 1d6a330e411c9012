import { useRef, useState } from "preact/hooks";
import { areaA1, areaOf, quotedSheet, readCells, type Area } from "../../src/cells/index.ts";
import type { Host } from "../../src/hosts/index.ts";
import { membersOnHost, Refused, type OnHost } from "../../src/office/index.ts";
import { says, type InputSpec, type Saying, type Template } from "../../src/sheet/index.ts";
import { rememberBuilt } from "../built.ts";
import type { Engine } from "../engine.ts";
import { whyNot } from "../loading.ts";
import { Problems } from "../problems.tsx";
import { SheetButton, type Step } from "../sheetButton.tsx";
import { waitsForOffice, type Office } from "./useOffice.ts";

/** So many members of the result are shown; the register has them all. */
const shown = 20;

interface Props {
  readonly host: Host;
  readonly engine: Engine;
  readonly template: Template;
  readonly office: Office;
  readonly touch: () => void;
}

/** "mu: friction coefficient [1/rad]" of every input, those that must be given first. */
function inputLines({ blocks, shape }: Template): readonly string[] {
  const lineOf = (saying: Saying, { default: usual, mayBeEmpty, freeText }: InputSpec): readonly [string, boolean] => {
    const { id, text, unit } = says(saying);
    const needed = usual === undefined && !mayBeEmpty && !freeText;
    const inUnit = unit === "–" ? "" : ` [${unit}]`;
    return [`${id}: ${text}${inUnit}${needed ? "; must be given" : ""}`, needed];
  };
  const lines = blocks
    .flatMap(({ items }) => items)
    .flatMap((item) => {
      if ("table" in item)
        return item.columns.flatMap((column) => (column.input ? [lineOf(column, column.input)] : []));
      return "id" in item && item.input ? [lineOf(item, item.input)] : [];
    });
  const sorted = [...lines.filter(([, needed]) => needed), ...lines.filter(([, needed]) => !needed)];
  return [...new Set([...shape.map(({ id, text }) => `${id}: ${text}`), ...sorted.map(([line]) => line)])];
}

/** The table that a text names, `Sheet1!A1:F20`; undefined where it names none. */
function tableIn(text: string): { readonly sheet: string; readonly area: Area } | undefined {
  const cells = readCells(text.trim());
  const area = cells && areaOf(cells);
  return cells?.sheet !== undefined && cells.book === undefined && area ? { sheet: cells.sheet, area } : undefined;
}

/** A row a member: from a range of a sheet to a sheet each and a register. */
export function MembersForm({ host, engine, template, office, touch }: Props) {
  const { defaults, isReading } = office;
  const [range, setRange] = useState("");
  const [problem, setProblem] = useState<readonly string[]>([]);
  const [step, setStep] = useState<Step>();
  const [result, setResult] = useState<OnHost>();
  const abort = useRef<AbortController>();
  const takeSelection = async (): Promise<void> => {
    touch();
    try {
      const at = await host.selection();
      if (!at) throw new Error("nothing is selected");
      // One cell stands for all that the sheet holds.
      const area = at.rows === 1 && at.columns === 1 ? await host.used(at.sheet) : at;
      setRange(`${quotedSheet(at.sheet)}!${areaA1(area, false)}`);
      setProblem([]);
    } catch (error) {
      setProblem([`The selection could not be taken: ${whyNot(error)}. Type the range.`]);
    }
  };
  const build = async (event: Event): Promise<void> => {
    event.preventDefault();
    if (abort.current || isReading) return;
    touch();
    setResult(undefined);
    const table = tableIn(range);
    if (!table) {
      setProblem([`“${range}” is no range of a sheet; type one such as Sheet1!A1:F20, or take the selection.`]);
      document.getElementById("kb-members-range")?.focus();
      return;
    }
    setProblem([]);
    setStep({ done: 0, of: 0, what: "reading the table" });
    const { signal } = (abort.current = new AbortController());
    try {
      const all = await Promise.all(engine.templates.map(({ id }) => engine.template(id)));
      setResult(
        await membersOnHost(host, {
          templates: { all, usual: template, linked: () => [] },
          run: { base: () => ({}), common: () => new Map(), linked: () => [], defaults },
          table,
          date: new Date().toISOString().slice(0, 10),
          progress: (done, of, what) => setStep({ done, of, what }),
          signal,
          built: rememberBuilt,
        }),
      );
    } catch (error) {
      setProblem(error instanceof Refused ? error.messages : [`The sheets were not built: ${whyNot(error)}`]);
    } finally {
      abort.current = undefined;
      setStep(undefined);
    }
  };
  return (
    <form class="kb-form kb-members" noValidate onSubmit={(event) => void build(event)}>
      <p class="kb-hint">
        A row a member, a column an input. The first row names the columns: member, then ids of inputs; one place of a
        list is sigj[2]. An empty cell leaves the default. Each member gets a sheet with its name, and a register sorts
        them by what governs.
      </p>
      <details>
        <summary>Columns that the table may have</summary>
        <ul class="kb-hint">
          {inputLines(template).map((line) => (
            <li key={line}>{line}</li>
          ))}
        </ul>
      </details>
      <div class="kb-field">
        <label for="kb-members-range">Table of the members</label>
        <input
          id="kb-members-range"
          type="text"
          value={range}
          placeholder="Sheet1!A1:F20"
          autocomplete="off"
          spellcheck={false}
          onInput={(event) => {
            touch();
            setRange(event.currentTarget.value);
          }}
        />
        <button type="button" onClick={() => void takeSelection()}>
          Take the selection
        </button>
      </div>
      <Problems texts={problem} />
      {isReading && (
        <p class="kb-hint" role="status">
          {waitsForOffice}
        </p>
      )}
      <SheetButton
        id="kb-members-progress"
        label="Build the members"
        doing="Building"
        step={step}
        disabled={isReading}
        cancel={() => abort.current?.abort()}
      />
      {result && <Outcome host={host} result={result} />}
    </form>
  );
}

function Outcome({ host, result }: { readonly host: Host; readonly result: OnHost }) {
  const { entries, register, left } = result;
  const counts = new Map<string, number>();
  for (const { verdict } of entries) counts.set(verdict, (counts.get(verdict) ?? 0) + 1);
  const show = (sheet: string): void => void host.select({ sheet, row: 0, column: 0 });
  return (
    <section>
      <p role="status">
        {[...counts].map(([verdict, count]) => `${verdict}: ${count}`).join(", ")}
        {left > 0 && `. Cancelled: ${left} members not done; build again to go on from here`}
      </p>
      <p>
        <button type="button" class="kb-link" onClick={() => show(register)}>
          {register}
        </button>
      </p>
      <table class="kb-table">
        <thead>
          <tr>
            <th scope="col">member</th>
            <th scope="col">verdict</th>
            <th scope="col">utilisation</th>
            <th scope="col">governing check, or why not</th>
          </tr>
        </thead>
        <tbody>
          {entries.slice(0, shown).map((entry) => (
            <tr key={entry.member}>
              <td>
                {entry.file === "" ? (
                  entry.member
                ) : (
                  <button type="button" class="kb-link" onClick={() => show(entry.file)}>
                    {entry.member}
                  </button>
                )}
              </td>
              <td>{entry.verdict}</td>
              <td>{entry.utilisation === null ? "–" : entry.utilisation.toFixed(2)}</td>
              <td>{entry.governing || entry.remarks}</td>
            </tr>
          ))}
        </tbody>
      </table>
      {entries.length > shown && <p class="kb-hint">{entries.length - shown} more in the register.</p>}
    </section>
  );
}
