import { a1 } from "../cells/index.ts";
import { membersAcross, readAcross } from "./across.ts";
import { columns, tableColumns } from "./columns.ts";
import { headOfColumn } from "./bands.ts";
import { firstOf, type PlacedAcross } from "./layout.ts";
import { areaAt, own, type Filling } from "./planCells.ts";
import { formatOf } from "./says.ts";
import { markedTitle } from "./tableCells.ts";

/** A table read across: each value is a reference to the table's, each place stands once. */
export function fillAcross(filling: Filling, { shaped, title, parts }: PlacedAcross): void {
  const { cells, layout, problems, sheet } = filling;
  cells.put(title, columns.item, "item", shaped.item);
  markedTitle(filling, title, "subtitle", shaped.across.title);
  for (const fault of readAcross(shaped, sheet)) if (typeof fault === "string") problems.add(shaped.place, fault);
  const lead = sheet.subjects.get(shaped.across.lead);
  if (lead?.kind !== "column") return problems.add(shaped.place, `${shaped.across.lead} is not a table column`);
  for (const { of, name, bands } of parts) {
    const { says } = of.column;
    if (lead.table.rows !== of.inner.members.length)
      return problems.add(shaped.place, `${shaped.across.lead} does not run over the same members`);
    const unit = says.unit === "–" ? "" : ` [${says.unit}]`;
    cells.put(
      name,
      tableColumns.first,
      "description",
      `${headOfColumn(of.column)}: ${says.text}${unit}; ${of.outer.label}`,
    );
    const leadFirst = firstOf(layout, lead.table, lead.column);
    const first = firstOf(layout, of.table, of.column);
    bands.forEach(({ head, first: to }, band) => {
      for (let column = columns.item; column <= columns.verdict; column++) {
        const member = band * membersAcross + column - tableColumns.first - 1;
        const number = column > tableColumns.first && member < of.outer.members.length ? member + 1 : undefined;
        const word = { [columns.item]: "no.", [tableColumns.first]: headOfColumn(lead.column) }[column];
        const role = column === columns.item ? "tableWord" : "tableSymbol";
        cells.put(head, column, role, column <= tableColumns.last ? (word ?? number) : undefined);
      }
      of.inner.members.forEach((_, i) => {
        const leadCell = { row: leadFirst + i, column: lead.column.at };
        const above = { ...leadCell, row: leadCell.row - 1 };
        // A place that repeats the one before is left out: nothing reads these cells.
        const refer = (column: number, from: typeof leadCell, format: string): void => {
          const shown = i === 0 ? a1(from) : `IF(${a1(leadCell)}=${a1(above)},"",${a1(from)})`;
          const reads = i === 0 ? [from] : [leadCell, above, from];
          cells.formula(to + i, column, "value", own(`=${shown}`, reads.map(areaAt)), shaped.place, format);
        };
        if (i === 0) cells.put(to, columns.item, "item", 1);
        else {
          const number = `=IF(${a1(leadCell)}=${a1(above)},"",${i + 1})`;
          cells.formula(to + i, columns.item, "item", own(number, [leadCell, above].map(areaAt)), shaped.place, "0");
        }
        refer(tableColumns.first, leadCell, formatOf(lead.column.says));
        of.outer.members.slice(band * membersAcross, (band + 1) * membersAcross).forEach((_member, k) => {
          const row = first + (band * membersAcross + k) * of.inner.members.length + i;
          refer(tableColumns.first + 1 + k, { row, column: of.column.at }, formatOf(says));
        });
      });
    });
  }
}
