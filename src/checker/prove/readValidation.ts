import type { CellContent, Host } from "../../hosts/index.ts";
import { columns, countColumns, head } from "./columns.ts";
import { validationTitle } from "./validationPlan.ts";
import { basesExplained, fail, good } from "./words.ts";

/** A row of the sheet whose verdict is none of the good words, or whose value or verdict was typed over its formula. */
export interface FailingRow {
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
  readonly versionNow: string;
  readonly versionBuilt: string;
  /** By basis and for all, in the sheet's order: values, then a count for each good word and for FAIL. */
  readonly counts: readonly { readonly basis: string; readonly values: number; readonly by: readonly number[] }[];
  readonly failing: readonly FailingRow[];
}

const textOf = ({ text, error, value }: CellContent): string => (error ? error.code : text || String(value ?? ""));
const number = ({ value }: CellContent): number => (typeof value === "number" ? value : NaN);

/** Reads a validation sheet as it stands; undefined where the sheet is none. */
export async function readValidation(host: Host, sheet: string): Promise<ReadValidation | undefined> {
  const top = await host.read(sheet, { row: 0, column: 0, rows: head.blocks, columns: columns.inputs });
  if (top[head.title]![0]!.value !== validationTitle) return undefined;
  const used = await host.used(sheet);
  const rows = used.rows > head.blocks ? await host.read(sheet, { row: head.blocks, column: 0, rows: used.rows - head.blocks, columns: columns.inputs }) : [];
  const bases: ReadonlySet<unknown> = new Set(basesExplained.map(([word]) => word));
  const words: ReadonlySet<unknown> = new Set(good);
  const proves = (cells: readonly CellContent[]): boolean => words.has(cells[columns.verdict]!.value) && [columns.live, columns.verdict].every((column) => cells[column]!.formula !== undefined);
  const verdictOf = (cells: readonly CellContent[]): string => `${textOf(cells[columns.verdict]!)}${words.has(cells[columns.verdict]!.value) ? ", typed over a formula" : ""}`;
  const failing = rows.flatMap((cells, i): FailingRow[] => (!bases.has(cells[columns.basis]!.value) || proves(cells) ? [] : [{
    row: head.blocks + i, no: textOf(cells[columns.no]!), what: textOf(cells[columns.what]!), printed: textOf(cells[columns.printed]!), compared: textOf(cells[columns.compared]!), verdict: verdictOf(cells),
  }]));
  const overall = top[head.overall]![columns.basis]!;
  return {
    // A word that was typed, or that rows contradict, is not repeated.
    overall: overall.value === "PASS" && (overall.formula === undefined || failing.length > 0) ? fail : textOf(overall),
    versionNow: textOf(top[head.now]![columns.basis]!),
    versionBuilt: textOf(top[head.built]![columns.basis]!),
    counts: Array.from({ length: basesExplained.length + 1 }, (_, i) => {
      const row = top[head.firstBasis + i]!;
      return { basis: textOf(row[countColumns.basis]!), values: number(row[countColumns.values]!), by: Array.from({ length: good.length + 1 }, (_one, k) => number(row[countColumns.built + 1 + k]!)) };
    }),
    failing,
  };
}
