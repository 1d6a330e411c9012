import { afterEach, expect, it } from "vitest";
import { nodeGrid } from "../../src/hosts/grid/node.ts";
import { emptySheet, openWorkbook, writeBook } from "../../src/hosts/index.ts";
import { Books } from "../../taskpane/workbench/keep/books.ts";
import type { Shelf } from "../../taskpane/workbench/keep/shelf.ts";
import { smallPlan } from "./smallPlan.ts";

const { host } = nodeGrid();
afterEach(() => host.dispose());

it("a sheet that is being built when a file is opened is kept with its workbook", async () => {
  const kept: (readonly [name: string, sheets: readonly string[]])[] = [];
  const shelf: Shelf = {
    list: () => Promise.resolve([]),
    contents: () => Promise.resolve(undefined),
    put: ({ name }, contents) => {
      kept.push([name, openWorkbook(contents).workbook.sheets.map((sheet) => sheet.name)]);
      return Promise.resolve(true);
    },
    remove: () => Promise.resolve(),
  };
  let ids = 0;
  const books = new Books(
    {
      host,
      shelf,
      hand: () => undefined,
      remember: () => undefined,
      replaced: () => undefined,
      newId: () => `id ${++ids}`,
      now: () => Date.now(),
    },
    "First",
  );
  const building = host.apply(smallPlan, { sheetName: "Beam", progress: () => undefined });
  const file = writeBook({
    sheets: [{ name: "Other", ...emptySheet }],
    names: [],
    properties: { creator: "Kernbook" },
  });
  const opening = books.openFile("Second.xlsx", new Blob([new Uint8Array(file)]));
  await Promise.all([building, opening]);
  expect(await host.sheetNames()).toEqual(["Other"]);
  expect(kept).toContainEqual(["First", ["Sheet1", "Beam"]]);
});
