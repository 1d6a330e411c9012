import { type Address, normalNow } from "../../cells/index.ts";
import type { CellContent, Host } from "../../hosts/index.ts";
import { version } from "../../core/index.ts";
import type { Plan } from "../../sheet/index.ts";
import { columns, countColumns, head } from "./columns.ts";
import { validationTitle, type MadeWhere } from "./validationPlan.ts";
import { basesExplained, fail, good } from "./words.ts";

/** A row of the sheet whose verdict is none of the good words, or whose value or verdict was typed over its formula. */
interface FailingRow {
  readonly row: number;
  readonly no: string;
  readonly what: string;
  readonly printed: string;
  readonly compared: string;
  readonly verdict: string;
}

/** What a validation sheet says now. */
export interface ReadValidation {
  readonly overall: string;
  /** The program has not computed all counts yet: what is read so far means nothing. */
  readonly computing: boolean;
  readonly versionNow: string;
  readonly versionBuilt: string;
  /** By basis and for all, in the sheet's order: values, then a count for each good word and for FAIL. */
  readonly counts: readonly { readonly basis: string; readonly values: number; readonly by: readonly number[] }[];
  readonly failing: readonly FailingRow[];
  /** Cells that are not as such a sheet is built: printed numbers, tolerances, inputs and formulas among them. */
  readonly changed: readonly Address[];
}

/** Makes the validation sheet as it is built, for the date and the host that a sheet names. */
export type AsBuilt = (made: MadeWhere) => Plan;

function changedCells(rows: readonly (readonly CellContent[])[], sheet: string, { cells }: Plan): readonly Address[] {
  return cells
    .filter(({ row, column, role, value = null, formula }) => {
      if (role === "mark") return false;
      const now = rows[row]?.[column];
      if (formula !== undefined)
        return now?.formula === undefined || normalNow(now.formula, sheet) !== normalNow(formula, sheet);
      return now?.formula !== undefined || (now?.value === "" ? null : (now?.value ?? null)) !== value;
    })
    .map(({ row, column }) => ({ row, column }));
}

const textOf = ({ text, error, value }: CellContent): string => (error ? error.code : text || String(value ?? ""));
const number = ({ value }: CellContent): number => (typeof value === "number" ? value : 0);
/** A count that has neither a value nor an error. */
const isOpen = ({ value, error }: CellContent): boolean => typeof value !== "number" && !error;

/**
 * Reads a validation sheet and, where this version built it, compares it with how it is built; undefined where the
 * sheet is none.
 */
export async function readValidation(host: Host, sheet: string, asBuilt: AsBuilt): Promise<ReadValidation | undefined> {
  const top = await host.read(sheet, { row: 0, column: 0, rows: head.blocks, columns: columns.inputs });
  if (top[head.title]![0]!.value !== validationTitle) return undefined;
  const used = await host.used(sheet);
  const whole = await host.read(sheet, {
    ...used,
    rows: Math.max(used.rows, head.blocks),
    columns: Math.max(used.columns, columns.inputs),
  });
  const rows = whole.slice(head.blocks);
  const changed =
    textOf(top[head.built]![columns.basis]!) === version
      ? changedCells(
          whole,
          sheet,
          asBuilt({ when: textOf(top[head.made]![columns.basis]!), host: textOf(top[head.host]![columns.basis]!) }),
        )
      : [];
  const bases: ReadonlySet<unknown> = new Set(basesExplained.map(([word]) => word));
  const words: ReadonlySet<unknown> = new Set(good);
  const proves = (cells: readonly CellContent[]): boolean =>
    words.has(cells[columns.verdict]!.value) &&
    [columns.live, columns.verdict].every((column) => cells[column]!.formula !== undefined);
  const verdictOf = (cells: readonly CellContent[]): string =>
    `${textOf(cells[columns.verdict]!)}${words.has(cells[columns.verdict]!.value) ? ", typed over a formula" : ""}`;
  const failing = rows.flatMap((cells, i): FailingRow[] =>
    !bases.has(cells[columns.basis]!.value) || proves(cells)
      ? []
      : [
          {
            row: head.blocks + i,
            no: textOf(cells[columns.no]!),
            what: textOf(cells[columns.what]!),
            printed: textOf(cells[columns.printed]!),
            compared: textOf(cells[columns.compared]!),
            verdict: verdictOf(cells),
          },
        ],
  );
  const overall = top[head.overall]![columns.basis]!;
  const countCells = Array.from({ length: basesExplained.length + 1 }, (_, i) => top[head.firstBasis + i]!).flatMap(
    (row) => [row[countColumns.values]!, ...row.slice(countColumns.built + 1, countColumns.built + 2 + good.length)],
  );
  return {
    computing: countCells.some(isOpen),
    // A word that was typed, or that rows contradict, is not repeated.
    overall:
      overall.value === "PASS" && (overall.formula === undefined || failing.length > 0 || changed.length > 0)
        ? fail
        : textOf(overall),
    versionNow: textOf(top[head.now]![columns.basis]!),
    versionBuilt: textOf(top[head.built]![columns.basis]!),
    counts: Array.from({ length: basesExplained.length + 1 }, (_, i) => {
      const row = top[head.firstBasis + i]!;
      return {
        basis: textOf(row[countColumns.basis]!),
        values: number(row[countColumns.values]!),
        by: Array.from({ length: good.length + 1 }, (_one, k) => number(row[countColumns.built + 1 + k]!)),
      };
    }),
    failing,
    changed,
  };
}
