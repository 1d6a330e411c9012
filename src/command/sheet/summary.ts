import { a1, type Address, cellsOf } from "../../cells/index.ts";
import type { CellContent, Values } from "../../hosts/index.ts";
import { conflict, type Plan } from "../../sheet/index.ts";

/** So many missing inputs and errors on screen; the sheet has them all. */
const most = 10;

/** Lines of columns as wide as their widest entry; the last column stays as it is. */
function table(rows: readonly (readonly string[])[]): readonly string[] {
  const widths = rows[0]!.map((_, i) => Math.max(...rows.map((row) => row[i]!.length)));
  return rows.map(
    (row) => `  ${row.map((text, i) => (i === row.length - 1 ? text : text.padEnd(widths[i]!))).join("  ")}`,
  );
}

function listed(title: string, lines: readonly string[], limit = most): readonly string[] {
  const more = lines.length - limit;
  return lines.length === 0
    ? []
    : [
        `${title}: ${lines.length}`,
        ...lines.slice(0, limit).map((line) => `  ${line}`),
        ...(more > 0 ? [`  … and ${more} more on the sheet`] : []),
      ];
}

function shown({ text, error }: CellContent): string {
  return error ? [error.code, ...(error.message === undefined ? [] : [error.message])].join(" ") : text;
}

/** What the sheet says: its governing checks, the verdict over all, warnings, missing inputs and errors, a line each. */
export function summaryLines(plan: Plan, values: Values): readonly string[] {
  const at = ({ row, column }: Address): CellContent => values[row]![column]!;
  const { checks, overall, warnings } = plan.summary;
  const texts = new Map(
    plan.cells.flatMap(({ row, role, value }) =>
      role === "description" && typeof value === "string" ? [[row, value] as const] : [],
    ),
  );
  const warned = cellsOf(warnings).flatMap((cell) => {
    const { text, error } = at(cell);
    const said = text.trim();
    return said === "" || error ? [] : [`${texts.get(cell.row) ?? a1(cell)}: ${said}`];
  });
  const missing = plan.cells
    .filter((cell) => cell.role === "verdict" && at(cell).value === "MISSING")
    .map((cell) => `${a1(cell)}: ${texts.get(cell.row) ?? "a row of a table"}`);
  const conflicts = (plan.conflicts ?? []).flatMap(({ status, message }) =>
    at(status).value === conflict ? [`${a1(status)}: ${shown(at(message))}`] : [],
  );
  const errors = plan.cells
    .filter((cell) => cell.formula !== undefined && at(cell).error)
    .map((cell) => `${a1(cell)}: ${shown(at(cell))}`);
  return [
    ...(checks.length > 0
      ? [
          "Governing checks:",
          ...table([
            ["check", "utilisation", "verdict", "where"],
            ...checks.map((check) => [
              check.description,
              shown(at(check.utilisation)),
              shown(at(check.verdict)),
              shown(at(check.where)),
            ]),
          ]),
        ]
      : []),
    `Overall verdict: ${shown(at(overall))}`,
    ...listed("Inputs missing", missing),
    ...listed("Inputs in conflict", conflicts),
    ...(warned.length > 0 ? listed("Warnings", warned, warned.length) : ["Warnings: none"]),
    ...(missing.length > 0 && errors.length > 0
      ? [`Cells with an error: ${errors.length}; enter the missing inputs first`]
      : listed("Cells with an error", errors)),
  ];
}
