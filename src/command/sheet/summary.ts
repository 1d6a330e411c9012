import { a1, type Address, cellsOf } from "../../cells/index.ts";
import type { CellContent, Values } from "../../hosts/index.ts";
import { asRead, conflict, missingInputs, missingText, noFigure, noResultText, type Plan } from "../../sheet/index.ts";
import { inColumns } from "../wrap.ts";

/** So many conflicts and errors on screen; the sheet has them all. */
const most = 10;

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

/**
 * What the sheet says (of a check whose cells show an error only why, since the message stands with its cause): its governing
 * checks, the verdict over all, warnings, missing inputs and errors, a line each.
 */
export function summaryLines(plan: Plan, values: Values): readonly string[] {
  const at = ({ row, column }: Address): CellContent => values[row]![column]!;
  const { checks, overall, warnings, answer } = plan.summary;
  const read = asRead(checks, ({ verdict, utilisation, aside }) => ({
    verdict: shown(at(verdict)),
    utilisation: at(utilisation).value,
    ...(aside && { aside }),
  }));
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
  const open = at(overall).value === "WARNINGS";
  const answered =
    at(overall).value === "OK" && warned.length > 0
      ? `, ${warned.length} warning${warned.length === 1 ? "" : "s"} answered`
      : "";
  const scope = plan.meanings.find(({ id }) => id === "notChecked");
  const isMissing = (status: Address): boolean => at(status).value === "MISSING";
  const missing = missingInputs(plan, isMissing, (cell) => at(cell).value).map(
    (one) => `${a1(one.at)} ${one.id}: ${missingText(one)}`,
  );
  const conflicts = (plan.conflicts ?? []).flatMap(({ status, message }) =>
    at(status).value === conflict ? [`${a1(status)}: ${shown(at(message))}`] : [],
  );
  const errors = plan.cells
    .filter((cell) => cell.formula !== undefined && at(cell).error)
    .map((cell) => `${a1(cell)}: ${shown(at(cell))}`);
  const noResult = noResultText(missing.length > 0 ? ["MISSING"] : []);
  return [
    ...(checks.length > 0
      ? [
          "Governing checks:",
          ...inColumns([
            ["check", "utilisation", "verdict", "where"],
            ...read.map((check) => [
              check.description,
              at(check.utilisation).error ? noFigure : at(check.utilisation).text,
              at(check.verdict).error ? noResult : at(check.verdict).text,
              at(check.where).error ? "" : at(check.where).text,
            ]),
          ]),
        ]
      : []),
    `Overall verdict: ${shown(at(overall))}${answered}`,
    ...(scope ? [`Checked: ${shown(at(scope.at))}`] : []),
    ...listed("Inputs missing", missing, missing.length),
    ...listed("Inputs in conflict", conflicts),
    ...(warned.length > 0 ? listed("Warnings", warned, warned.length) : ["Warnings: none"]),
    ...(open && answer
      ? [
          `To answer them: look at each, mend it or be ready to defend it, then --set warningsAnswered=${at(answer.code).text}`,
        ]
      : []),
    ...(missing.length > 0 && errors.length > 0
      ? [`Cells with an error: ${errors.length}; enter the missing inputs first`]
      : listed("Cells with an error", errors)),
  ];
}
