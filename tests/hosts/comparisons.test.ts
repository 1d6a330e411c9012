import { afterAll, beforeAll, expect, it } from "vitest";
import { openGridInNode, type GridHost } from "../../src/hosts/index.ts";

let host: GridHost;
beforeAll(async () => {
  host = await openGridInNode();
  await host.enter({ sheet: "Sheet1", row: 0, column: 0 }, 0);
  await host.enter({ sheet: "Sheet1", row: 1, column: 0 }, '=""');
});
afterAll(() => host.dispose());

// A1 holds 0, A2 an empty text, B1 nothing: as spreadsheet programs compare them, whatever was compared before.
it.each([
  ['=IF(A1="","",A1)', 0],
  ['=OR(A1="")', false],
  ['=A1=""', false],
  ['=A2=""', true],
  ["=A2=0", false],
  ["=A1=0", true],
  ['=B1=""', true],
  ["=B1=0", true],
  ['=SUMPRODUCT((A1:A3="")*1)', 2],
  ['=SUMPRODUCT((A1:A3<>"")*1)', 1],
  ["=SUMPRODUCT((A1:A3=0)*1)", 2],
])("%s gives %s, the second time too", async (formula, expected) => {
  for (let time = 0; time < 2; time++)
    expect((await host.evaluate(formula, "Sheet1"))[0]![0]!.value, `${time}`).toBe(expected);
});
