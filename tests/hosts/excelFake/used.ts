import type { Area } from "../../../src/cells/index.ts";
import { rangeShape } from "./range.ts";
import type { RangeTarget, SheetTarget } from "./services.ts";
import { placeOf } from "./state.ts";
import { strictObject, type Handle } from "./strict.ts";

function around(places: readonly (readonly [number, number])[]): Area | undefined {
  if (places.length === 0) return undefined;
  const row = Math.min(...places.map(([r]) => r));
  const column = Math.min(...places.map(([, c]) => c));
  return {
    row,
    column,
    rows: Math.max(...places.map(([r]) => r)) - row + 1,
    columns: Math.max(...places.map(([, c]) => c)) - column + 1,
  };
}

/**
 * With or without cells that only have a look. A formula that shows nothing counts as a cell without a value: the
 * program does not promise more.
 */
export function usedRange(self: Handle<SheetTarget>, valuesOnly = false): object {
  let found: RangeTarget | undefined;
  self.context.enqueue("Worksheet.getUsedRangeOrNullObject", async () => {
    const target = self.target();
    const { sheet, services } = target;
    const formulas = [...sheet.cells.values()].some(({ formula }) => formula !== undefined);
    const computed = valuesOnly && formulas ? (await services.computed()).get(sheet.id) : undefined;
    const keys = valuesOnly
      ? [...sheet.cells]
          .filter(([key, { value, formula }]) => (formula === undefined ? value : computed!.get(key)!.value) !== "")
          .map(([key]) => key)
      : [...sheet.cells.keys()];
    const beside = [...(computed?.keys() ?? [])].filter((key) => !sheet.cells.has(key));
    const area = around([...keys, ...beside].map(placeOf));
    found = area && { ...target, areas: [area] };
  });
  return strictObject(self.context, rangeShape, () => found, true);
}
