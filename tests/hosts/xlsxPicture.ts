import { a1, areaA1 } from "../../src/cells/index.ts";
import { tones } from "../../src/hosts/index.ts";
import { readWorkbook } from "./ourFile.ts";
import { halfCharacters, picturedRule, picturedStyle, type Picture } from "./picture.ts";

/** The sheet of a workbook file, as the file itself says it. */
export function xlsxPicture(bytes: Uint8Array): Picture {
  const read = readWorkbook(bytes);
  const area = (one: Parameters<typeof areaA1>[0]): string => areaA1(one, false);
  const within = new Set(
    read.spans.flatMap((span) =>
      Array.from({ length: span.rows * span.columns - 1 }, (_, i) =>
        a1({ row: span.row + Math.floor((i + 1) / span.columns), column: span.column + ((i + 1) % span.columns) }),
      ),
    ),
  );
  const { areas, titleRows, orientation, footer } = read.print;
  return {
    cells: Object.fromEntries(
      read.cells
        .filter((cell) => !within.has(a1(cell)))
        .map((cell) => [
          a1(cell),
          {
            value: cell.value,
            ...(cell.error !== undefined && { error: cell.error }),
            ...(cell.formula !== undefined && { formula: cell.formula }),
            format: cell.format ?? "General",
            style: picturedStyle(cell.style),
            unlocked: !cell.locked,
          },
        ]),
    ),
    names: Object.fromEntries(read.names.map((one) => [one.name, area(one)])),
    validations: Object.fromEntries(
      read.validations.map(({ rule, title, message, allowBlank, ...at }) => [
        area(at),
        { rule: picturedRule(rule), allowBlank: allowBlank === true, title, message, prompt: { title, message } },
      ]),
    ),
    highlights: Object.fromEntries(
      read.highlights.map((one) => [
        `${area(one)} ${one.begins ? "begins " : ""}${one.text}`,
        { color: tones[one.tone].color, background: tones[one.tone].background },
      ]),
    ),
    protected: read.protected,
    spans: read.spans.map(area),
    freeze: read.freeze,
    widths: read.widths.map(halfCharacters),
    // Behind the sheet's own area stand those of the charts.
    print: { area: area(areas[0]!), titleRows, orientation, footer },
    charts: read.charts.map(({ title, x: { log }, y: { down }, series }) => ({
      title,
      log: log === true,
      down: down === true,
      series: series.map(({ name, kind, x, y }) => ({ name, kind, x: area(x), y: area(y) })),
    })),
  };
}
