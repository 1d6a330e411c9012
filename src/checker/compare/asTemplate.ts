import { bookOfSheets } from "../book/bookOfSheets.ts";
import { type Address, agrees, Calculation, cellAt, type Computed } from "../../cells/index.ts";
import { format as numberText } from "../../core/index.ts";
import { inputRoles, peoplesRoles } from "../../sheet/index.ts";
import type { CellContent } from "../../hosts/index.ts";
import type { Recognised } from "../recognise/recognised.ts";
import { plannedAt, standing } from "../recognise/standing.ts";
import { shownResult } from "./cells.ts";
import type { Finding, FindingKind } from "./finding.ts";

/** What the sheet says of itself, and what its template's formulas give from the same inputs. */
export interface Effect {
  readonly overall: { readonly sheet: string; readonly template: string };
  /** The largest utilisation, with the check it is of; undefined where no check has a number. */
  readonly governing: { readonly sheet: Governing | undefined; readonly template: Governing | undefined };
}
export interface Governing {
  readonly utilisation: number;
  readonly of: string;
}

const empty: CellContent = { value: null, text: "" };

/** The template's own sheet with what the compared sheet's input cells hold, computed apart from the host; places are the plan's. */
function templateValues(recognised: Recognised): (planned: Address) => Computed {
  const { plan, snapshot } = recognised;
  const sheet = snapshot.sheet;
  const cells: CellContent[][] = Array.from({ length: plan.rows }, () =>
    Array.from({ length: plan.columns }, () => empty),
  );
  for (const { row, column, role, value, formula: planned, link } of plan.cells) {
    // What comes from another sheet is as given here as an input.
    const formula = link ? undefined : planned;
    const at = link || inputRoles.has(role) ? standing(recognised, { row, column }) : undefined;
    const { value: held = value ?? null, error } = at ? cellAt(snapshot, at.row, at.column) : { error: undefined };
    if (peoplesRoles.has(role)) continue;
    cells[row]![column] = {
      value: formula === undefined ? held : null,
      text: "",
      ...(formula !== undefined && { formula }),
      ...(error && { error }),
    };
  }
  const names = new Map(plan.names.map(({ name, ...area }) => [name.toLowerCase(), { sheet, ...area }]));
  const calculation = new Calculation(
    bookOfSheets([{ sheet, rows: plan.rows, columns: plan.columns, cells, names }]),
    [],
    {
      everything: true,
    },
  );
  return (planned) => calculation.valueAt({ sheet, ...planned });
}

function governing(
  recognised: Recognised,
  utilisationOf: (planned: Address) => CellContent["value"] | undefined,
): Governing | undefined {
  let most: Governing | undefined;
  for (const { description, utilisation } of recognised.plan.summary.checks) {
    const value = utilisationOf(utilisation);
    if (typeof value === "number" && value > (most?.utilisation ?? -Infinity))
      most = { utilisation: value, of: description };
  }
  return most;
}

/** Findings of formulas that give something else than the template's. */
const ofFormulas: ReadonlySet<FindingKind> = new Set([
  "typed over",
  "formula missing",
  "formula changed",
  "constant changed",
  "arguments in another order",
  "range changed",
  "other cells",
  "lost cells",
]);

/** Relative difference in per cent, to two digits. */
function percent(now: number, template: number): string {
  const p = Number((((now - template) / Math.abs(template)) * 100).toPrecision(2));
  return Number.isFinite(p) && Math.abs(p) < 1000 ? ` (${p > 0 ? "+" : ""}${numberText(p)} %)` : "";
}

function comparedWith(now: CellContent, template: Computed): string | undefined {
  if (template.cannot !== undefined) return undefined;
  const { value } = template;
  if ((!now.error && !template.error && agrees(now.value, value)) || shownResult(now) === shownResult(template))
    return "It shows what the template's formulas give.";
  const difference = typeof now.value === "number" && typeof value === "number" ? percent(now.value, value) : "";
  return `It shows ${shownResult(now)}${difference}; with the template's formulas it would be ${shownResult(template)}.`;
}

/**
 * What faults of formulas come to: each gets its value beside the one that the template's formulas give from the
 * sheet's inputs, and the sheet its verdict beside
 * theirs. Undefined where no formula differs.
 */
export function effects(
  recognised: Recognised,
  findings: readonly Finding[],
): { readonly findings: readonly Finding[]; readonly effect: Effect } | undefined {
  if (
    !findings.some(
      ({ kind, grade }) =>
        grade === "serious" && (ofFormulas.has(kind) || kind === "number changed" || kind === "row deleted"),
    )
  )
    return undefined;
  const { plan, snapshot } = recognised;
  const of = templateValues(recognised);
  const now = (planned: Address): CellContent | undefined => {
    const at = standing(recognised, planned);
    return at && cellAt(snapshot, at.row, at.column);
  };
  const told = findings.map((finding): Finding => {
    const { at } = finding;
    const planned = at && plannedAt(recognised, at);
    if (!ofFormulas.has(finding.kind) || !planned) return finding;
    const compared = comparedWith(cellAt(snapshot, at.row, at.column), of(planned));
    return compared === undefined
      ? finding
      : {
          ...finding,
          what:
            `${finding.what} ` +
            `${(finding.rows ?? 1) > 1 ? `The first: ${compared.charAt(0).toLowerCase()}${compared.slice(1)}` : compared}`,
        };
  });
  const overall = now(plan.summary.overall);
  return {
    findings: told,
    effect: {
      overall: {
        sheet: overall ? shownResult(overall) : "its row is missing",
        template: shownResult(of(plan.summary.overall)),
      },
      governing: {
        sheet: governing(recognised, (at) => now(at)?.value),
        template: governing(recognised, (at) => of(at).value),
      },
    },
  };
}
