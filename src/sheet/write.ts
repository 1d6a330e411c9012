import { a1, type Address, type Area, areaA1 } from "../cells/index.ts";
import { columns, firstRow } from "./columns.ts";
import { warningRows, type Layout } from "./layout.ts";
import { parseFormula, type Token } from "./references.ts";
import { textConstant } from "./relations.ts";
import { resolve, targetA1, type Context } from "./resolve.ts";
import type { ShapeInput } from "./template.ts";

/** A formula as it stands in a cell, with the cells it reads. */
export interface Written {
  readonly formula: string;
  readonly reads: readonly Area[];
  readonly problems: readonly string[];
}

/** Where counted words and errors stand: the verdict column from the first row to the one above. */
function verdictsAbove(row: number): readonly Area[] {
  const rows = Math.max(1, row - firstRow);
  return [{ row: firstRow, column: columns.verdict, rows, columns: 1 }];
}

/** The cells of each list of warnings. */
export function warningAreas(layout: Layout): readonly Area[] {
  return layout.sheet.blocks
    .flatMap(({ items }) => items)
    .flatMap((item) => {
      const rows = warningRows(layout.sheet);
      return item.kind === "warnings" && layout.sheet.warned.length + layout.sheet.watched.length > 0
        ? [{ row: layout.itemRows.get(item)!, column: columns.value, rows, columns: 1 }]
        : [];
    });
}

/** The cell that keeps what a shape input was when the sheet was built. */
export function builtCell(row: number): Address {
  return { row, column: columns.from };
}

function shapeChanged(layout: Layout): { text: string; reads: Area[] } {
  const pairs = layout.sheet.template.shape.map(({ id }: ShapeInput) => {
    const row = layout.shapeRows.get(id)!;
    return [{ row, column: columns.value }, builtCell(row)] as const;
  });
  return {
    text:
      pairs.length === 0
        ? "FALSE"
        : `OR(${pairs.map(([now, built]) => `${a1(now, true)}<>${a1(built, true)}`).join(",")})`,
    reads: pairs.flat().map((cell) => ({ ...cell, rows: 1, columns: 1 })),
  };
}

/** Rows and tables above a row that have verdicts: the cells, and how the sheet names them. */
function verdictAreas(layout: Layout, above: number): readonly { readonly area: Area; readonly name: string }[] {
  const at = (row: number, rows: number): Area => ({ row, column: columns.verdict, rows, columns: 1 });
  return layout.sheet.blocks
    .flatMap(({ items }) => items)
    .flatMap((item) => {
      if (item.kind === "row" && item.row.verdict !== undefined)
        return [{ area: at(layout.itemRows.get(item)!, 1), name: `${item.item} ${item.says.text}` }];
      if (item.kind !== "table" || !item.columns.some(({ column }) => column.verdict)) return [];
      return [{ area: at(layout.tables.get(item)!.first, item.rows), name: `${item.item} ${item.table.title}` }];
    })
    .filter(({ area }) => area.row + area.rows <= above);
}

function failing(layout: Layout, above: number): { text: string; reads: Area[] } {
  const all = verdictAreas(layout, above);
  const one = ({ area, name }: (typeof all)[number]): string =>
    `IF(COUNTIF(${areaA1(area)},"FAIL")>0,${textConstant(`${name}; `)},"")`;
  return { text: all.length === 0 ? '""' : all.map(one).join("&"), reads: all.map(({ area }) => area) };
}

/** Writes tokens with addresses in place of references. `at` is the cell the formula stands in. */
export function writeTokens(
  tokens: readonly Token[],
  context: Context,
  at: Address,
  layout: Layout,
  fixed = false,
): Written {
  const reads: Area[] = [];
  const problems: string[] = [];
  const text = tokens
    .map((token) => {
      if (token.type !== "reference") return token.text;
      const { reference } = token;
      if (reference.kind === "shapeChanged") {
        const changed = shapeChanged(layout);
        reads.push(...changed.reads);
        return changed.text;
      }
      if (reference.kind === "failing") {
        const named = failing(layout, at.row);
        reads.push(...named.reads);
        return named.text;
      }
      if (reference.kind === "count") {
        const areas = reference.word === "warnings" ? warningAreas(layout) : verdictsAbove(at.row);
        reads.push(...areas);
        if (areas.length === 0) return "0";
        const one = (area: Area): string => {
          if (reference.word === "warnings") return `COUNTIF(${areaA1(area)},"?*")`;
          return reference.word === "error"
            ? `SUMPRODUCT(ISERROR(${areaA1(area)})*1)`
            : `COUNTIF(${areaA1(area)},"${reference.word}")`;
        };
        return `(${areas.map(one).join("+")})`;
      }
      const target = resolve(reference, context, layout);
      if (typeof target === "string") {
        problems.push(target);
        return "0";
      }
      reads.push(target.area);
      return targetA1(target, fixed || context.kind === "row");
    })
    .join("");
  return { formula: `=${text}`, reads, problems };
}

export function write(formula: string, context: Context, at: Address, layout: Layout): Written {
  return writeTokens(parseFormula(formula).tokens, context, at, layout);
}
