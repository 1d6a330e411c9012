import type { CellContent, Values } from "../../hosts/index.ts";
import { a1, type Address, type Plan } from "../../sheet/index.ts";

/** Lines of columns as wide as their widest entry; the last column stays as it is. */
function table(rows: readonly (readonly string[])[]): readonly string[] {
  const widths = rows[0]!.map((_, i) => Math.max(...rows.map((row) => row[i]!.length)));
  return rows.map((row) => `  ${row.map((text, i) => (i === row.length - 1 ? text : text.padEnd(widths[i]!))).join("  ")}`);
}

function shown({ text, error }: CellContent): string {
  return error ? [error.code, ...(error.message === undefined ? [] : [error.message])].join(" ") : text;
}

/** What the sheet says: its governing checks, the verdict over all, warnings, missing inputs and errors, a line each. */
export function summaryLines(plan: Plan, values: Values): readonly string[] {
  const at = ({ row, column }: Address): CellContent => values[row]![column]!;
  const { checks, overall, warnings } = plan.summary;
  const meaning = (row: number): string => plan.cells.find((cell) => cell.row === row && cell.role === "description")?.value?.toString() ?? `row ${row + 1}`;
  const warned = Array.from({ length: warnings.rows }, (_, i) => warnings.row + i).flatMap((row) => {
    const text = shown(at({ row, column: warnings.column }));
    return text === "" ? [] : [`  ${meaning(row)}: ${text}`];
  });
  const judged = plan.cells.filter(({ role, formula }) => role === "verdict" && formula !== undefined);
  const missing = judged.filter((cell) => at(cell).value === "MISSING");
  const errors = plan.cells.filter((cell) => cell.formula !== undefined && at(cell).error);
  const some = errors.slice(0, 5).map((cell) => `  ${a1(cell)}: ${shown(at(cell))}`);
  return [
    ...(checks.length > 0 ? ["Governing checks:", ...table([["check", "utilisation", "verdict", "where"], ...checks.map((check) => [check.description, shown(at(check.utilisation)), shown(at(check.verdict)), shown(at(check.where))])])] : []),
    `Overall verdict: ${shown(at(overall))}`,
    ...(warned.length > 0 ? ["Warnings:", ...warned] : ["Warnings: none"]),
    ...(missing.length > 0 ? [`Inputs missing: ${missing.length} ${missing.length === 1 ? "row is" : "rows are"} marked MISSING, first ${a1(missing[0]!)}`] : []),
    ...(errors.length > 0 ? [`Cells with an error: ${errors.length}${errors.length > some.length ? ", the first of them" : ""}`, ...some] : []),
  ];
}
