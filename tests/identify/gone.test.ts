/** A sheet that is deleted while its formulas are looked at, or once they were. */
import { afterEach, expect, it } from "vitest";
import { identifyOn, identifiedPaper } from "../../src/checker/index.ts";
import type { InsertedCell } from "../../src/hosts/index.ts";
import { deletedAt } from "../checker/deletedAt.ts";
import { gridWithFaults, type GridFaults } from "../checker/gridFaults.ts";

const rows: readonly (readonly [label: string, content: number | string, unit: string])[] = [
  ["jacking stress", 1395, "MPa"],
  ["friction coefficient μ", 0.2, "1/rad"],
  ["angle α", 0.3, "rad"],
  ["wobble k", 0.003, "1/m"],
  ["distance x", 12, "m"],
  ["stress", "=B1*EXP(-(B2*B3+B4*B5))", "MPa"],
  ["mean strength fcm", 43, "MPa"],
  ["modulus Ecm", "=21500*(B7/10)^0.3", "MPa"],
];
const cells = rows.flatMap(([label, content, unit], row): InsertedCell[] => [
  { row, column: 0, value: label },
  typeof content === "string" ? { row, column: 1, formula: content } : { row, column: 1, value: content },
  { row, column: 2, value: unit },
]);

let faults: GridFaults | undefined;
afterEach(() => {
  faults?.host.dispose();
  faults = undefined;
});

/** A workbook of two sheets, on one of them formulas typed by hand. */
async function typed(): Promise<{ readonly faults: GridFaults; readonly sheet: string; readonly other: string }> {
  faults = gridWithFaults();
  const [sheet] = await faults.host.sheetNames();
  const other = await faults.duplicate(sheet!);
  await faults.host.insert(sheet!, cells);
  return { faults, sheet: sheet!, other };
}

it("a sheet deleted while it is read is named by the refusal, or identified as it was read", async () => {
  const whole = await typed();
  const counted = deletedAt(0, whole.faults.host, () => Promise.resolve());
  const all = await identifyOn(counted.host, whole.sheet);
  expect(all.findings.map(({ verdict }) => verdict)).toEqual(["identified", "nearly"]);
  expect(counted.asked()).toBeGreaterThan(0);
  whole.faults.host.dispose();
  const outcomes: string[] = [];
  for (let turn = 1; turn <= counted.asked(); turn++) {
    const { faults: now, sheet } = await typed();
    const { host } = deletedAt(turn, now.host, () => now.remove(sheet));
    outcomes.push(
      await identifyOn(host, sheet).then(
        ({ findings }) => (findings.length === all.findings.length ? "as it was read" : "not as it was read"),
        (error: Error) => (error.message.includes(sheet) ? "refused by name" : error.message),
      ),
    );
    now.host.dispose();
  }
  expect(outcomes[0]).toBe("refused by name");
  expect(outcomes.filter((outcome) => !["refused by name", "as it was read"].includes(outcome))).toEqual([]);
});

it("a sheet deleted while its formulas are looked at is told as it was read", async () => {
  const { faults: now, sheet, other } = await typed();
  let removed: Promise<void> | undefined;
  const list = await identifyOn(now.host, sheet, {
    progress: (done) => {
      if (done === 1) removed ??= now.remove(sheet);
    },
  });
  expect(removed).toBeDefined();
  await removed;
  expect(await now.host.sheetNames()).toEqual([other]);
  expect(list.findings.map(({ verdict }) => verdict)).toEqual(["identified", "nearly"]);
  // The list on paper needs nothing of the sheet.
  expect(identifiedPaper(list, { date: "1 June 2026", host: now.host.name })).toContain("FRICTION_STRESS");
});
