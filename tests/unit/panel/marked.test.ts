/** A mark that was just made is counted from its own cell, without reading the sheet again. */
import { expect, it } from "vitest";
import { markCells, partsOf, recognise, unmarkCells } from "../../../src/checker/index.ts";
import { markedOf, withCellsNow, type Marked } from "../../../taskpane/check/signOff/marked.ts";
import { builtBook } from "../../checker/books.ts";

it("counts a mark as soon as it is entered, and as soon as it is taken off, as a new look at the sheet does", async () => {
  const { host, plan } = await builtBook("post-tensioned-en1992-2004");
  const count = ({ progress }: Marked): number => progress.reduce((sum, { marked }) => sum + marked, 0);
  const asRead: { readonly rows: number }[] = [];
  const counting = {
    read: (...of: Parameters<typeof host.read>) => {
      asRead.push(of[1]);
      return host.read(...of);
    },
  };
  const before = (await recognise(host, "Beam"))!;
  expect(count(markedOf(before))).toBe(0);
  const { first, last } = plan.meanings
    .filter(({ id }) => id === "mu")
    .map(({ at }) => ({ first: at.row, last: at.row + at.rows - 1 }))[0]!;
  const part = partsOf(plan)
    .flatMap(({ items }) => items)
    .find((one) => one.first <= first && one.last >= last)!;
  const cells = markCells(part, before, "AB", "2026-11-30");
  await host.enterAll("Beam", cells);
  const marked = markedOf(await withCellsNow(counting, before, cells));
  expect(count(marked)).toBe(1);
  expect(marked.marks.map(({ by, state }) => [by, state])).toEqual([["AB", "holds"]]);
  expect(asRead.map(({ rows }) => rows)).toEqual([1]);
  expect(count(markedOf((await recognise(host, "Beam"))!))).toBe(1);
  const off = unmarkCells(marked.marks[0]!);
  await host.enterAll("Beam", off);
  expect(count(markedOf(await withCellsNow(counting, marked.recognised, off)))).toBe(0);
});
