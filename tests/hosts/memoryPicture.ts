import { a1, areaA1, type Address } from "../../src/cells/index.ts";
import { cellOf, contentOf, isLocked } from "./memory/sheet.ts";
import type { MemoryHost } from "./memory/memoryHost.ts";
import { halfCharacters, picturedRule, picturedStyle, type Picture } from "./picture.ts";
import type { Plan } from "../../src/sheet/index.ts";

/** A sheet in memory as it stands. */
export function memoryPicture(host: MemoryHost, name: string, plan: Plan): Picture {
  const sheet = host.workbook.sheet(name);
  const cells: Record<string, Picture["cells"][string]> = {};
  const pictured = (at: Address): void => {
    const cell = cellOf(sheet, at.row, at.column);
    if (!cell) return;
    const { value, formula, error } = contentOf(sheet, at.row, at.column);
    cells[a1(at)] = {
      value,
      ...(error && { error: error.code }),
      ...(formula !== undefined && { formula }),
      format: cell.format ?? "General",
      style: picturedStyle(cell.style ?? {}),
      unlocked: !isLocked(sheet, at),
    };
  };
  for (let row = 0; row < plan.rows; row++)
    for (let column = 0; column < plan.columns; column++) pictured({ row, column });
  return {
    cells,
    names: Object.fromEntries(sheet.names.flatMap((one) => (one.area ? [[one.name, areaA1(one.area, false)]] : []))),
    validations: Object.fromEntries(
      sheet.entries.flatMap(({ entry: { rule }, said, ...area }) =>
        rule === "other" || !said
          ? []
          : [
              [
                areaA1(area, false),
                {
                  rule: picturedRule(rule),
                  allowBlank: said.allowBlank === true,
                  title: said.title,
                  message: said.message,
                },
              ],
            ],
      ),
    ),
    highlights: Object.fromEntries(
      sheet.colours.flatMap(({ areas, text, begins, color, background }) =>
        areas.map((area) => [
          `${areaA1(area, false)} ${begins ? "begins " : ""}${text}`,
          { color: color!.toLowerCase(), background: background!.toLowerCase() },
        ]),
      ),
    ),
    protected: sheet.unlocked !== undefined,
    spans: sheet.spans.map((area) => areaA1(area, false)),
    freeze: sheet.freeze,
    widths: plan.widths.map((_, column) => halfCharacters(sheet.widths.get(column)!)),
  };
}
