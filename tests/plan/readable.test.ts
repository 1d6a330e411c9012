/** What is read on paper: nothing cut that tells rows apart, and each place once where a table is read across. */
import { describe, expect, test } from "vitest";
import { expand, textWidth } from "../../src/sheet/index.ts";
import { shapeSheet } from "../../src/sheet/shape.ts";
import { shapeValues } from "../../src/sheet/inputs.ts";
import { Problems } from "../../src/sheet/problems.ts";
import { allTemplates, templates } from "../../src/templates/index.ts";
import { planned } from "./builtSheet.ts";

describe.each(allTemplates.map((template) => [template.id, template] as const))("%s", (_, template) => {
  test("words repeated in further bands have the room that they have in the first", () => {
    const values = shapeValues(template, template.example.inputs, new Problems());
    const { sheet } = shapeSheet(template, values);
    for (const { items } of sheet.blocks)
      for (const item of items)
        if (item.kind === "table")
          for (const { of, cells } of item.repeated) expect(cells, item.place).toBe(item.columns[of]!.cells);
  });

  test("numbers of rows do not touch what stands beside them", () => {
    const { cells, widths } = expand(template, template.example.inputs);
    for (const { column, role, value } of cells)
      if (column === 0 && role === "item")
        expect(textWidth(String(value ?? "")), String(value)).toBeLessThan(widths[0]! - 0.7);
  });
});

// The bug: "2" over the column that asks for the second jack.
test.each(allTemplates.map((template) => [template.id, template] as const))(
  "%s: no column or row is headed by a bare number",
  (_, template) => {
    const twoJacks = template.shape.some(({ id }) => id === "twoJacks") ? { twoJacks: "YES" } : {};
    const { meanings } = expand(template, { ...template.example.inputs, ...twoJacks });
    expect(meanings.filter(({ symbol }) => /^\d+$/.test(symbol)).map(({ id }) => id)).toEqual([]);
  },
);

test.each(templates.map((template) => [template.id, template] as const))(
  "%s: a table read across has each place once",
  (_, template) => {
    const { plan, values } = planned(template, template.example.inputs);
    const named = plan.cells.filter(({ value }) => /; stage$/.test(String(value)));
    expect(named.length).toBeGreaterThan(0);
    const stations = plan.meanings.find(({ id }) => id === "x")!.at;
    const distinct = new Set(
      Array.from({ length: stations.rows }, (_x, i) => values[stations.row + i]![stations.column]!.value),
    );
    for (const { row } of named) {
      // Below the name its heading, then a line a station.
      const lines = Array.from({ length: stations.rows }, (_x, i) => values[row + 2 + i]!);
      const places = lines.map((line) => line[1]!.value);
      expect(places.filter((x) => x !== "")).toEqual([...distinct]);
      for (const line of lines) expect(line[2]!.value === "").toBe(line[1]!.value === "");
    }
  },
);
