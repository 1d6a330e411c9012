import { a1, type Address } from "../../src/cells/index.ts";
import { useEffect, useRef, useState } from "preact/hooks";
import type { CellContent, Host } from "../../src/hosts/index.ts";
import {
  asRead,
  columns,
  missingInputs,
  missingText,
  noFigure,
  noResultText,
  unconfirmedText,
  type MissingInput,
} from "../../src/sheet/index.ts";
import type { Built } from "../built.ts";
import { Cautions, fullCautions } from "../cautions.tsx";
import type { Engine } from "../engine.ts";
import { whyNot } from "../loading.ts";
import { Chart } from "./chart.tsx";
import { LinkedSheets } from "./linkedForm.tsx";
import { StartCheck } from "./startCheck.tsx";
import { ChangeSheet } from "./changeSheet.tsx";
import { contentsOf, openCells, type OpenCell } from "./openCells.ts";
import type { Running } from "./running.ts";
import { useCalculations } from "../useCalculations.ts";
import { scrollToTop } from "../scroll.ts";
import { toneOf, unconfirmedOn } from "../verdict.ts";

interface Check {
  readonly id: string;
  readonly description: string;
  readonly at: Address;
  readonly utilisation: CellContent;
  readonly where: CellContent;
  readonly verdict: CellContent;
  readonly aside?: true;
}
interface Warning {
  /** The row or table whose function warns. */
  readonly of: string;
  readonly text: string;
  readonly at: Address;
}
interface Outcome {
  readonly open: readonly OpenCell[];
  readonly overall: CellContent;
  readonly checks: readonly Check[];
  readonly warnings: readonly Warning[];
  /** Values that are assumed or proposed, here and on the sheet this one is linked to. */
  readonly unconfirmed: number;
  /** Why a check whose cells show an error has no result. */
  readonly noResult: string;
  /** The version that the sheet says it was built with, where the template has another by now. */
  readonly older?: string;
  /** The sheet has a logo, which the host does not show. */
  readonly unseenLogo: boolean;
}

async function readOutcome(host: Host, { sheet, plan }: Built): Promise<Outcome> {
  const { summary } = plan;
  const one = async (at: Address): Promise<CellContent> =>
    (await host.read(sheet, { ...at, rows: 1, columns: 1 }))[0]![0]!;
  const checks = await Promise.all(
    summary.checks.map(async ({ id, description, utilisation, where, verdict, aside }) => ({
      id,
      description,
      at: utilisation,
      utilisation: await one(utilisation),
      where: await one(where),
      verdict: await one(verdict),
      ...(aside && { aside }),
    })),
  );
  const ordered = asRead(checks, (check) => ({
    verdict: shown(check.verdict),
    utilisation: check.utilisation.value,
    ...(check.aside && { aside: check.aside }),
  }));
  const { warnings: list } = summary;
  const lines =
    list.rows > 0
      ? await host.read(sheet, { ...list, column: columns.description, columns: list.column - columns.description + 1 })
      : [];
  // The sheet has a line for every function; only those with a text warn.
  const warnings = lines
    .map((cells, i): Warning => ({
      of: cells[0]!.text,
      text: cells.at(-1)!.text.trim(),
      at: { row: list.row + i, column: list.column },
    }))
    .filter(({ text }) => text !== "");
  const statuses = await host.read(sheet, { row: 0, column: columns.verdict, rows: plan.rows, columns: 1 });
  const statusOf = ({ row }: Address): string => statuses[row]?.[0]?.text ?? "";
  const open = openCells(plan, statusOf, await missingOn(host, { sheet, plan }, statusOf));
  const noResult = noResultText(statuses.map(([cell]) => cell?.text ?? ""));
  const sheets = await host.sheetNames();
  const source = plan.source && sheets.includes(plan.source.sheet) ? [plan.source.sheet] : [];
  const unconfirmed = await unconfirmedOn(host, [sheet, ...source]);
  const version = plan.cells.find(({ value }) => value === `${plan.template.id} ${plan.template.version}`);
  const said = version && String((await one(version)).value);
  const isOther = said !== undefined && /^\S+ \d+\.\d+\.\d+$/.test(said) && said !== version!.value;
  const older = isOther ? said.split(" ")[1] : undefined;
  return {
    ...(older && { older }),
    open,
    overall: await one(summary.overall),
    checks: ordered,
    warnings,
    unconfirmed,
    noResult,
    unseenLogo: !host.showsLogos && (await host.logo(sheet)) !== undefined,
  };
}

/** Every input that is missing; the rows that hold them are read only where there is one. */
async function missingOn(
  host: Host,
  { sheet, plan }: Built,
  statusOf: (at: Address) => string,
): Promise<readonly MissingInput[]> {
  const isMissing = (status: Address): boolean => statusOf(status) === "MISSING";
  const rows = (plan.judged ?? []).filter(({ status }) => isMissing(status)).map(({ at }) => at.row);
  if (rows.length === 0) return [];
  const first = Math.min(...rows);
  const area = { row: first, column: 0, rows: Math.max(...rows) - first + 1, columns: plan.columns };
  const cells = await host.read(sheet, area);
  return missingInputs(plan, isMissing, ({ row, column }) => cells[row - first]?.[column]?.value);
}

/** What was read of a sheet, or why it could not be; of no other sheet. */
interface Said {
  readonly of: Built;
  readonly outcome?: Outcome;
  readonly problem?: string;
}

const shown = (cell: CellContent): string => cell.error?.code ?? (cell.text || "–");

/** The figure of a check, or its place, in words. */
const figureText = (cell: CellContent): string => (cell.error ? noFigure : shown(cell));
const placeText = (cell: CellContent): string => (cell.error ? "" : cell.text);

/** The first of the checks as they are read, where it has a figure. */
function governing([first]: readonly Check[]): Check | undefined {
  return typeof first?.utilisation.value === "number" ? first : undefined;
}

/** Where the sheet is, what it says and what governs; kept current while the sheet recalculates. */
export function Result({
  host,
  engine,
  built,
  arrived,
  toFocus,
  again,
  running,
  finished,
}: {
  readonly host: Host;
  readonly engine: Engine;
  readonly built: Built;
  /** How many sheets were finished in this panel so far. */
  readonly arrived: number;
  /** The button that was pressed is gone with the form: the heading takes the focus, once. */
  readonly toFocus: { current: boolean };
  readonly again: () => void;
  readonly running: Running;
  readonly finished: (built: Built) => void;
}) {
  const [said, setSaid] = useState<Said>();
  const shownNow = useRef(built);
  shownNow.current = built;
  // Until this sheet is read there is none: never the verdict of the one before under this heading.
  const { outcome, problem }: Partial<Said> = said?.of === built ? said : {};
  const [calculation] = useCalculations(host);
  const section = useRef<HTMLElement>(null);
  // Another sheet's result is read from its beginning.
  useEffect(() => scrollToTop(section.current), [built.sheet, arrived]);
  useEffect(() => {
    if (!toFocus.current) return;
    toFocus.current = false;
    section.current?.querySelector<HTMLElement>("h2")?.focus({ preventScroll: true });
  }, [arrived]);
  useEffect(() => {
    let live = true;
    readOutcome(host, built).then(
      (o) => {
        if (live) setSaid({ of: built, outcome: o });
      },
      // A verdict that can't be read again is none any more.
      (error: unknown) => {
        if (live) setSaid({ of: built, problem: whyNot(error) });
      },
    );
    return () => {
      live = false;
    };
  }, [host, built, calculation]);

  const go = (at: Address): void =>
    void host.select({ sheet: built.sheet, row: at.row, column: at.column }).catch((error: unknown) => {
      if (shownNow.current === built)
        setSaid((now) => ({ ...(now?.of === built && now), of: built, problem: whyNot(error) }));
    });
  const most = outcome && governing(outcome.checks);
  const verdictText = (cell: CellContent): string => (cell.error && outcome ? outcome.noResult : shown(cell));
  const overall = outcome ? verdictText(outcome.overall) : "";
  return (
    <section class="kb-result-view" aria-label="Result" ref={section}>
      <h2 tabIndex={-1}>{built.plan.template.title}</h2>
      <p>
        The check sheet stands on{" "}
        <button type="button" class="kb-link" onClick={() => go({ row: 0, column: 0 })}>
          {built.sheet}
        </button>
      </p>
      <p class="kb-hint">Change its input cells there; this page follows.</p>
      {built.note && <p class="kb-hint">{built.note}</p>}
      {outcome?.unseenLogo && (
        <p class="kb-hint">
          The grid shows no pictures. The logo is kept with the sheet: saved files, copies and reports show it.
        </p>
      )}
      <p>
        <button type="button" disabled={running.some} onClick={again}>
          Build another
        </button>
      </p>
      <ChangeSheet
        key={`change ${built.sheet}`}
        host={host}
        engine={engine}
        sheet={built.sheet}
        running={running}
        finished={finished}
        older={outcome?.older}
      />
      <details class="kb-contents">
        <summary>Contents of the sheet</summary>
        <ul class="kb-plain">
          {contentsOf(built.plan).map(({ title, at }) => (
            <li key={title}>
              <button type="button" class="kb-link" onClick={() => go(at)}>
                {title}
              </button>
            </li>
          ))}
        </ul>
      </details>
      <div role="alert">
        {problem && (
          <p class="kb-problem">
            The sheet could not be read: {problem}. If it was renamed or deleted, build it again.
          </p>
        )}
      </div>
      <div aria-live="polite">
        {outcome && (
          <p class="kb-overall">
            Overall verdict{" "}
            <button
              type="button"
              class={`kb-tag kb-link ${toneOf(overall, outcome.unconfirmed)}`}
              onClick={() => go(built.plan.summary.overall)}
            >
              {overall}
            </button>
            {outcome.unconfirmed > 0 && <span class="kb-unconfirmed"> {unconfirmedText(outcome.unconfirmed)}</span>}
          </p>
        )}
      </div>
      {outcome && (
        <>
          {most && (
            <p>
              Governs: <strong>{most.description}</strong>, utilisation {shown(most.utilisation)}
              {placeText(most.where) && ` (${placeText(most.where)})`}.
            </p>
          )}
          <div class="kb-scroll" tabIndex={0} role="group" aria-label="Checks">
            <table class="kb-table kb-checks">
              <caption class="kb-hidden">Checks with utilisation, place and verdict</caption>
              <thead>
                <tr>
                  <th scope="col">check, and where it governs</th>
                  <th scope="col">utilisation</th>
                  <th scope="col">
                    verdict
                    {outcome.unconfirmed > 0 && <div class="kb-hint">{unconfirmedText(outcome.unconfirmed)}</div>}
                  </th>
                </tr>
              </thead>
              <tbody>
                {outcome.checks.map((c) => (
                  <tr key={c.id} class={c === most ? "kb-governs" : undefined}>
                    <th scope="row">
                      <button
                        type="button"
                        class="kb-link"
                        aria-label={`${c.description}: go to ${a1(c.at)}`}
                        onClick={() => go(c.at)}
                      >
                        {c.description}
                      </button>
                      <div class="kb-where">{placeText(c.where)}</div>
                    </th>
                    <td>{figureText(c.utilisation)}</td>
                    <td>
                      <span class={`kb-tag ${toneOf(verdictText(c.verdict), outcome.unconfirmed)}`}>
                        {verdictText(c.verdict)}
                      </span>
                    </td>
                  </tr>
                ))}
              </tbody>
            </table>
          </div>
          {outcome.open.length > 0 && (
            <details class="kb-open" open>
              <summary>{outcome.open.length} to fill in or settle</summary>
              <ul class="kb-plain">
                {outcome.open.map(({ title, status, at, missing }) => (
                  <li key={at.row}>
                    <button
                      type="button"
                      class="kb-link"
                      aria-label={`${title}: go to ${a1(at)}`}
                      onClick={() => go(at)}
                    >
                      {title}
                    </button>{" "}
                    <span class="kb-hint">{status}</span>
                    {missing.length > 0 && (
                      <ul class="kb-plain kb-hint">
                        {missing.map((one) => (
                          <li key={one.id}>
                            {a1(one.at)} {missingText(one)}: {one.id}
                          </li>
                        ))}
                      </ul>
                    )}
                  </li>
                ))}
              </ul>
            </details>
          )}
          {outcome.warnings.length > 0 ? (
            <details class="kb-warnings">
              <summary>
                {outcome.warnings.length} warning{outcome.warnings.length === 1 ? "" : "s"}
              </summary>
              <ul class="kb-plain">
                {outcome.warnings.map(({ of, text, at }) => (
                  <li key={at.row}>
                    <button type="button" class="kb-link" aria-label={`${of}: go to ${a1(at)}`} onClick={() => go(at)}>
                      {of}
                    </button>
                    <div class="kb-hint">{text}</div>
                  </li>
                ))}
              </ul>
            </details>
          ) : (
            <p>No warnings.</p>
          )}
        </>
      )}
      {engine.choosingTemplates.some(({ id }) => id === built.plan.template.id) && (
        <StartCheck
          key={`start ${built.sheet}`}
          host={host}
          engine={engine}
          sheet={built.sheet}
          running={running}
          finished={finished}
        />
      )}
      <LinkedSheets key={built.sheet} host={host} engine={engine} built={built} running={running} finished={finished} />
      <Cautions of={fullCautions} />
      {built.plan.charts.map((c) => (
        <Chart key={`${built.sheet} ${c.id}`} host={host} sheet={built.sheet} chart={c} calculation={calculation} />
      ))}
    </section>
  );
}
