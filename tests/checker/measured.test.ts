/**
 * A stressing record gives its measured values to the stress check. The rules are the project's own; force, stress and
 * draw-in are worked out here from the readings: force by pressure, area and loss, stress by force over area.
 */
import { expect, test } from "vitest";
import { cellAt } from "../../src/cells/index.ts";
import {
  enterMeasured,
  linkedPlan,
  readMarks,
  readMeasured,
  recognise,
  takeSnapshot,
} from "../../src/checker/index.ts";
import { expand, type Plan } from "../../src/sheet/index.ts";
import { linkedTemplates } from "../../src/templates/index.ts";
import { MemoryFaults } from "./memoryFaults.ts";

const template = linkedTemplates.find(({ id }) => id === "stressing-record-post-tensioned-en1992-2004")!;
const of = template.source!.template;
const progress = (): void => undefined;

test(
  "force and draw-in as read go into the stress check, which says so; the record keeps the design's",
  { timeout: 120_000 },
  async () => {
    const { host } = new MemoryFaults();
    const source = expand(of, of.example.inputs);
    await host.apply(source, { sheetName: "Beam 1", progress });
    const plan = await linkedPlan(host, template, "Beam 1", template.example.inputs);
    await host.apply(plan, { sheetName: "Record", progress });
    const column = async (sheet: string, which: Plan, id: string): Promise<readonly unknown[]> => {
      const { row, column: at, rows } = which.meanings.find((one) => one.id === id)!.at;
      const snapshot = await takeSnapshot(host, sheet);
      return Array.from({ length: rows }, (_, i) => cellAt(snapshot, row + i, at).value);
    };
    const before = await column("Record", plan, "rgTot");
    const stress = await column("Beam 1", source, "sp0t");

    const measured = await readMeasured(host, "Record");
    expect(measured.source).toBe("Beam 1");
    expect(measured.verdict).toBe("OK");
    expect(measured.missing).toEqual([]);
    expect(measured.values.map(({ now }) => now)).toEqual(Array(6).fill(undefined));
    // 429, 428 and 357 bar on 30 000 mm² less 2 %, over 6, 6 and 5 strands of 150 mm².
    const expected = [42.9, 42.8, 35.7].map((p, i) => (p * 30000 * 0.98) / ([6, 6, 5][i]! * 150));
    measured.values.slice(0, 3).forEach(({ measured: value }, i) => expect(value).toBeCloseTo(expected[i]!, 9));
    expect(measured.values.slice(3).map(({ measured: value }) => value)).toEqual([6.5, 5.5, 6]);

    expect(await enterMeasured(host, measured)).toBe(6);
    expect(await column("Beam 1", source, "slipU")).toEqual([6.5, 5.5, 6]);
    (await column("Beam 1", source, "sigjU")).forEach((value, i) => expect(value).toBeCloseTo(expected[i]!, 9));
    expect(await column("Beam 1", source, "sigj")).toEqual([1400, 1400, 1400]);
    expect(await column("Beam 1", source, "sp0t")).not.toEqual(stress);
    expect(await column("Beam 1", source, "keyMeasured")).toEqual(["MEASURED on site: 3 forces, 3 draw-ins"]);
    expect(await column("Record", plan, "rgTot")).toEqual(before);

    const check = (await recognise(host, "Beam 1"))!;
    expect(cellAt(check.snapshot, measured.mark.row, measured.mark.column).value).toBe("measured");
    expect(readMarks(check)).toEqual([]);
    expect((await readMeasured(host, "Record")).values.map(({ now, measured: value }) => now === value)).toEqual(
      Array(6).fill(true),
    );

    // Without a last reading of a tendon nothing of it is given; what is not there is named.
    const { row, column: at } = plan.meanings.find(({ id }) => id === "rdBar")!.at;
    await host.enter({ sheet: "Record", row: row + 4, column: at }, "");
    const open = await readMeasured(host, "Record");
    expect(open.verdict).toBe("INCOMPLETE");
    expect(open.values).toHaveLength(5);
    expect(open.missing).toEqual([expect.stringContaining("no. 1 (lower left): jacking stress measured")]);

    await expect(readMeasured(host, "Beam 1")).rejects.toThrow("is no stressing record");

    const second = linkedTemplates.find(({ id }) => id === "second-stressing-post-tensioned-en1992-2004")!;
    const again = await linkedPlan(host, second, "Beam 1", second.example.inputs);
    await host.apply(again, { sheetName: "Again", progress });
    await expect(readMeasured(host, "Again")).rejects.toThrow("takes what was measured at the first");
  },
);
