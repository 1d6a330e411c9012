import { expect, it } from "vitest";
import { recognise, wordMarks } from "../../../src/checker/index.ts";
import { readDefaults } from "../../../src/office/index.ts";
import { officeWord } from "../../../src/sheet/index.ts";
import { comparedSheet } from "../../../taskpane/build/officeBox.tsx";
import { builtBook } from "../../checker/books.ts";

it("counts as taken from the office what it gave, its mark gone or not once another value is typed", async () => {
  const { host, plan, template } = await builtBook("post-tensioned-en1992-2004");
  await host.enterAll("Beam", wordMarks(plan, new Map([[officeWord, (id: string) => id === "mu"]])));
  const mu = plan.meanings.find(({ id }) => id === "mu")!.at;
  await host.enterAll("Beam", [{ row: mu.row, column: mu.column, value: 0.25 }]);
  const defaults = readDefaults(
    JSON.stringify({
      kind: "kernbook office defaults",
      office: "Alder Office (invented)",
      version: "3",
      date: "2026-11-01",
      inputs: [{ id: "mu", value: 0.17, unit: "1/rad" }],
    }),
    [template],
  );
  await host.select({ sheet: "Beam", row: 0, column: 0 });
  const said = await comparedSheet(host, { recognise }, defaults);
  expect(said.slice(0, 2)).toEqual([
    "Beam: 1 inputs taken from the office, 1 of them other than Alder Office (invented) 3 (2026-11-01).",
    "mu: 0.25 on the sheet, 0.17 in the defaults.",
  ]);
});
