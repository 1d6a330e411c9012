/** What a person means who goes to a cell or an input by what they type. */
import { expect, it } from "vitest";
import { placeMeant } from "../../../taskpane/workbench/goTo.ts";

const area = { sheet: "Beam 1", row: 39, column: 7, rows: 1, columns: 1 };
const host = {
  sheetNames: () => Promise.resolve(["Sheet1", "Beam 1"]),
  namesOn: (sheet: string) =>
    Promise.resolve(
      sheet === "Beam 1"
        ? [
            { name: "kb_fck", area },
            { name: "kb_L", area: { ...area, row: 40 } },
          ]
        : [],
    ),
};

it.each([
  ["H40", "Sheet1", { sheet: "Sheet1", row: 39, column: 7 }],
  [" $aa$12 ", "Sheet1", { sheet: "Sheet1", row: 11, column: 26 }],
  ["fck", "Beam 1", { sheet: "Beam 1", row: 39, column: 7 }],
  ["KB_FCK", "Beam 1", { sheet: "Beam 1", row: 39, column: 7 }],
  ["L", "Beam 1", { sheet: "Beam 1", row: 40, column: 7 }],
  ["'Beam 1'!fck", "Sheet1", { sheet: "Beam 1", row: 39, column: 7 }],
  ["fck", "Sheet1", undefined],
  ["Beam 2!H40", "Sheet1", undefined],
  ["span", "Beam 1", undefined],
] as const)("%s on %s", async (text, shown, place) => {
  expect(await placeMeant(host, text, shown)).toEqual(place);
});
