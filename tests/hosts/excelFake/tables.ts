import type { RangeTarget } from "./services.ts";
import { cellAt } from "./state.ts";
import { Misuse, type Handle } from "./strict.ts";

/** What a method answers with: nothing to read before the request came back. */
function answer<V>(
  { context, kind, target }: Handle<RangeTarget>,
  what: string,
  work: (target: RangeTarget) => V,
): { readonly value: V } {
  let given: { readonly value: V } | undefined;
  context.enqueue(`${kind}.${what}`, () => {
    given = { value: structuredClone(work(target())) };
  });
  return {
    get value() {
      if (!given) throw new Misuse(`the answer of ${kind}.${what} was read before sync`);
      return given.value;
    },
  };
}

interface Wanted {
  readonly [name: string]: boolean | Wanted;
}

/** Of what there is, what was asked for. */
function picked(all: Readonly<Record<string, unknown>>, wanted: Wanted, what: string): Record<string, unknown> {
  return Object.fromEntries(
    Object.entries(wanted).flatMap(([name, want]) => {
      if (!Object.hasOwn(all, name)) throw new Misuse(`the fake has no ${name} for ${what}`);
      if (want === false) return [];
      return [[name, want === true ? all[name] : picked(all[name] as Readonly<Record<string, unknown>>, want, what)]];
    }),
  );
}

const usual = { height: 15, width: 48 } as const;
const counted = (from: number, count: number): readonly number[] => Array.from({ length: count }, (_, i) => from + i);

export const tableMethods = {
  getCellProperties: (self: Handle<RangeTarget>, wanted: Wanted) =>
    answer(self, "getCellProperties", ({ sheet, areas: [area] }) =>
      counted(area!.row, area!.rows).map((row) =>
        counted(area!.column, area!.columns).map((column) => {
          const { color, fill, size, locked } = cellAt(sheet, row, column);
          // A cell without a fill is white here.
          return picked(
            { format: { font: { color, size }, fill: { color: fill ?? "#FFFFFF" }, protection: { locked } } },
            wanted,
            "cells",
          );
        }),
      ),
    ),
  getRowProperties: (self: Handle<RangeTarget>, wanted: Wanted) =>
    answer(self, "getRowProperties", ({ sheet, areas: [area] }) =>
      counted(area!.row, area!.rows).map((row) =>
        picked(
          { rowHidden: sheet.hiddenRows.has(row), format: { rowHeight: sheet.heights.get(row) ?? usual.height } },
          wanted,
          "rows",
        ),
      ),
    ),
  getColumnProperties: (self: Handle<RangeTarget>, wanted: Wanted) =>
    answer(self, "getColumnProperties", ({ sheet, areas: [area] }) =>
      counted(area!.column, area!.columns).map((column) =>
        picked(
          {
            columnHidden: sheet.hiddenColumns.has(column),
            format: { columnWidth: sheet.widths.get(column) ?? usual.width },
          },
          wanted,
          "columns",
        ),
      ),
    ),
};
