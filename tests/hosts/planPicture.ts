import { a1, type Area, areaA1 } from "../../src/cells/index.ts";
import { styleOf, tones, type CellContent } from "../../src/hosts/index.ts";
import type { Plan } from "../../src/sheet/index.ts";
import { halfCharacters, picturedRule, picturedStyle, type Picture } from "./picture.ts";

const within = ({ row, column, rows, columns }: Area, r: number, c: number): boolean =>
  r >= row && r < row + rows && c >= column && c < column + columns;

/** What a plan asks for, with the given contents where a formula decides them. */
export function planPicture(plan: Plan, contents: readonly (readonly CellContent[])[]): Picture {
  const area = (one: Area): string => areaA1(one, false);
  return {
    cells: Object.fromEntries(
      plan.cells.map((cell) => {
        const { row, column, value, formula, format } = cell;
        const { value: shown, error } = contents[row]![column]!;
        return [
          a1({ row, column }),
          {
            value: formula === undefined ? (value ?? null) : shown,
            ...(formula !== undefined && { formula }),
            ...(formula !== undefined && error && { error: error.code }),
            format: format ?? "General",
            style: picturedStyle(styleOf(cell)),
            unlocked: plan.unlocked.some((one) => within(one, row, column)),
          },
        ];
      }),
    ),
    names: Object.fromEntries(plan.names.map((one) => [one.name, area(one)])),
    validations: Object.fromEntries(
      plan.validations.map(({ rule, title, message, allowBlank, ...at }) => [
        area(at),
        { rule: picturedRule(rule), allowBlank: allowBlank === true, title, message, prompt: { title, message } },
      ]),
    ),
    highlights: Object.fromEntries(
      plan.highlights.map((one) => [
        `${area(one)} ${one.begins ? "begins " : ""}${one.text}`,
        { color: tones[one.tone].color, background: tones[one.tone].background },
      ]),
    ),
    protected: true,
    spans: plan.spans.map(area),
    freeze: plan.freeze,
    widths: plan.widths.map(halfCharacters),
    print: {
      area: area(plan.print.area),
      titleRows: plan.print.titleRows,
      orientation: plan.print.orientation,
      footer: plan.print.footer,
    },
    charts: plan.charts.map(({ title, x: { log }, y: { down }, series }) => ({
      title,
      log: log === true,
      down: down === true,
      series: series.map(({ name, kind, x, y }) => ({ name, kind, x: area(x), y: area(y) })),
    })),
  };
}
