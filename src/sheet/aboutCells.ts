import { a1, type Address, type Area } from "../cells/index.ts";
import { version } from "../core/index.ts";
import { columns, officeLabel, templateLabel } from "./columns.ts";
import { marksExplained } from "./formulaText.ts";
import { own, type Filling } from "./planCells.ts";
import { putLink } from "./links.ts";
import { lastOfChoice } from "./rowTexts.ts";
import { markedSymbol } from "./subscripts.ts";
import { markedTitle } from "./tableCells.ts";
import { fillWorkingsNote } from "./workingCells.ts";
import { builtCell } from "./write.ts";

/** The worksheet function that says the version of the functions loaded. */
export const versionCall = "KERN.VERSION()";

/** The end of the sheet: configuration, template and version, conventions, what the marks of sources mean. */
export function fillAbout(filling: Filling): void {
  const { cells, sheet, layout } = filling;
  const { template } = sheet;
  const { title, number, lines, marks, workings } = layout.about;
  cells.put(title, columns.item, "block", String(number));
  markedTitle(filling, title, "block", "Configuration, template and conventions");
  fillShape(filling, number);
  for (const { line, row } of lines) {
    if (typeof line === "object") {
      cells.sentence(row, "note", line.convention, columns.description, columns.mark);
      continue;
    }
    cells.put(row, columns.description, "label", labels[line]);
    if (line === "hash") cells.hashAt = { row, column: columns.symbol };
    else if (line === "functions") functionsVersion(filling, row);
    else {
      const text = {
        template: `${template.id} ${template.version}`,
        office: template.office ?? "",
        standard: template.standard,
        method: template.method,
      };
      cells.put(row, columns.symbol, "label", text[line]);
    }
  }
  cells.sentence(marks, "note", marksExplained, columns.description, columns.mark);
  if (workings !== undefined) fillWorkingsNote(filling, workings);
}

const labels = {
  template: templateLabel,
  office: officeLabel,
  hash: "content hash",
  functions: "version of the worksheet functions",
  standard: "standard",
  method: "method",
} as const;

/** The version computing now beside the one the sheet was built with. */
function functionsVersion({ cells }: Filling, row: number): void {
  const now: Area = { row, column: columns.value, rows: 1, columns: 1 };
  const built = builtCell(row);
  cells.formula(row, now.column, "label", own(`=${versionCall}`, []), "about");
  cells.put(built.row, built.column, "bound", version);
  cells.put(row, columns.to, "label", "as built; CHANGED: check again");
  const at = (cell: Address): string => a1(cell, true);
  cells.formula(
    row,
    columns.verdict,
    "verdict",
    own(`=IF(${at(now)}=${at(built)},"SAME","CHANGED")`, [now, { ...built, rows: 1, columns: 1 }]),
    "about",
  );
  cells.name("functionsVersion", now);
}

/** The inputs that decide which rows there are: locked, with what the sheet was built with beside. */
function fillShape(filling: Filling, block: number): void {
  const { cells, sheet, layout } = filling;
  const { source } = sheet.template;
  sheet.template.shape.forEach((input, i) => {
    const row = layout.about.shape.get(input.id)!;
    const value = sheet.values[input.id]!;
    const item = `${block}.${i + 1}`;
    const chosen = input.choices?.find((choice) => choice.value === value)?.text;
    const allowed = input.choices ? (chosen ?? "") : `${input.min ?? ""} to ${input.max ?? ""}`;
    cells.put(row, columns.item, "item", item);
    cells.put(row, columns.description, "description", input.text);
    if (input.symbol !== "–") cells.put(row, columns.symbol, "symbol", markedSymbol(input.symbol));
    if (source?.template.shape.includes(input))
      putLink(filling, { row, column: columns.value }, input.id, 0, 1, "configuration");
    else cells.put(row, columns.value, "shape", value);
    const last = lastOfChoice(input);
    if (last > columns.value) cells.join(row, columns.value, last);
    else cells.put(row, columns.unit, "unit", "–");
    const built = builtCell(row);
    cells.put(built.row, built.column, "bound", value);
    const wide = last > columns.value ? 1 : 0;
    cells.join(row, built.column, built.column + wide);
    cells.put(row, columns.to + wide, "label", `as built: ${allowed}`);
    const area = { row, column: columns.value, rows: 1, columns: 1 };
    cells.name(input.id, area);
    cells.mean({ id: input.id, text: input.text, symbol: input.symbol, unit: "–" }, item, area);
  });
}
