/** The names of what fails, and the number of the first, as the grid's own engine gives them; what is expected is written by hand. */
import { afterAll, beforeAll, expect, it } from "vitest";
import { openGridInNode, type GridHost } from "../../src/hosts/index.ts";

const one = (cell: string, name: string): string => `IF(COUNTIF(${cell}:${cell},"FAIL")>0,"; ${name}","")`;
const names = `MID(${one("A1", "1.2 one")}&${one("A2", "1.3 two")}&${one("A3", "2.1 three")},3,29)`;
const first = `LEFT(B1,FIND(" ",B1)-1)&IF(ISNUMBER(FIND("; ",B1))," and others","")`;

let host: GridHost;
beforeAll(async () => {
  host = await openGridInNode();
  await host.enter({ sheet: "Sheet1", row: 0, column: 1 }, `=${names}`);
});
afterAll(() => host.dispose());

it.each([
  [["FAIL", "OK", "FAIL"], "1.2 one; 2.1 three", "1.2 and others"],
  [["OK", "FAIL", "OK"], "1.3 two", "1.3"],
  [["FAIL", "FAIL", "FAIL"], "1.2 one; 1.3 two; 2.1 three", "1.2 and others"],
])("%s: %s, %s", async (words, all, number) => {
  for (const [row, word] of words.entries()) await host.enter({ sheet: "Sheet1", row, column: 0 }, word);
  expect((await host.evaluate("=B1", "Sheet1"))[0]![0]!.value).toBe(all);
  expect((await host.evaluate(`=${first}`, "Sheet1"))[0]![0]!.value).toBe(number);
});
