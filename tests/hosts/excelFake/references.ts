import { type Area, areaA1, quotedSheet } from "../../../src/cells/index.ts";
import { tokenize, tokenTypes } from "@borgar/fx";
import { keyOf, placeOf, type FakeSheet, type FakeWorkbook } from "./state.ts";
import { OfficeError } from "./strict.ts";

export function areaOfAddress(text: string): Area {
  const m = /^([A-Z]{1,3})(\d+)(?::([A-Z]{1,3})(\d+))?$/.exec(text);
  if (!m) throw new OfficeError("InvalidArgument", `“${text}” is no address`);
  const column = (letters: string): number => [...letters].reduce((sum, c) => sum * 26 + c.charCodeAt(0) - 64, 0) - 1;
  const from = { row: Number(m[2]) - 1, column: column(m[1]!) };
  return { ...from, rows: Number(m[4] ?? m[2]) - from.row, columns: column(m[3] ?? m[1]!) - from.column + 1 };
}

/** As the program keeps a function of an add-in it does not know: the formula keeps the mark, and gives #NAME? for good. */
const marked = /(?:\[\d+\]!)?_xldudf_KERN_\w+\(/g;

/** The grid looks names up in its own way; here each stands as the cells it means. */
export function withoutNames(formula: string, sheet: FakeSheet, workbook: FakeWorkbook): string {
  return tokenize(formula.replace(marked, "SUM(#NAME?,"))
    .map(({ type, value }) => {
      if (type !== tokenTypes.REF_NAMED) return value;
      const [name, sheetName] = value.split("!").reverse() as [string, string?];
      const owner =
        sheetName === undefined ? sheet : workbook.sheets.find((one) => quotedSheet(one.name) === sheetName);
      const own = owner?.names.get(name.toLowerCase());
      if (own?.lost) return "#REF!";
      if (own) return `${quotedSheet(owner!.name)}!${areaA1(own.area)}`;
      return workbook.names.get(name.toLowerCase())?.slice(1) ?? value;
    })
    .join("");
}

/** The cells of all sheets whose formulas speak of a cell; those below each other together. */
export function dependants(
  workbook: FakeWorkbook,
  of: FakeSheet,
  row: number,
  column: number,
): readonly { readonly sheet: FakeSheet; readonly area: Area }[] {
  const speaks = (formula: string, sheet: FakeSheet): boolean =>
    tokenize(withoutNames(formula, sheet, workbook), { mergeRefs: true }).some(({ type, value }) => {
      if (type !== tokenTypes.REF_RANGE) return false;
      const [cells, owner] = value.replaceAll("$", "").split("!").reverse() as [string, string?];
      const area = areaOfAddress(cells);
      return (
        (owner === undefined ? sheet : workbook.sheets.find(({ name }) => quotedSheet(name) === owner)) === of &&
        row >= area.row &&
        row < area.row + area.rows &&
        column >= area.column &&
        column < area.column + area.columns
      );
    });
  return workbook.sheets.flatMap((sheet) => {
    const found = [...sheet.cells]
      .filter(([, { formula }]) => formula !== undefined && speaks(formula, sheet))
      .map(([key]) => placeOf(key));
    const keys = new Set(found.map(([r, c]) => keyOf(r, c)));
    return found
      .filter(([r, c]) => !keys.has(keyOf(r - 1, c)))
      .map(([r, c]) => {
        let rows = 1;
        while (keys.has(keyOf(r + rows, c))) rows++;
        return { sheet, area: { row: r, column: c, rows, columns: 1 } };
      });
  });
}
