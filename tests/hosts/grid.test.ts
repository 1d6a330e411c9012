import { afterEach, beforeEach, describe, expect, it, vi } from "vitest";
import {
  checkSheetName,
  openGridInNode,
  SheetNameTaken,
  type ApplyOptions,
  type GridHost,
} from "../../src/hosts/index.ts";
import type { Plan } from "../../src/sheet/index.ts";
import { nodeGrid } from "../../src/hosts/grid/node.ts";
import { smallPlan } from "./smallPlan.ts";

let host: GridHost;
beforeEach(async () => {
  host = await openGridInNode();
});
afterEach(() => host.dispose());

const build = (sheetName = "Beam", options: Partial<ApplyOptions> = {}, plan: Plan = smallPlan) =>
  host.apply(plan, { sheetName, progress: () => undefined, ...options });
const cell = async (row: number, column: number, sheet = "Beam") =>
  (await host.read(sheet, { row, column, rows: 1, columns: 1 }))[0]![0]!;
/** The plain exponential of friction, written out. */
const friction = (mu: number) => 1395 * Math.exp(-(mu * 0.3 + 0.003 * 12));

describe("building", () => {
  it("resolves when everything is computed, and gives values at full precision", async () => {
    expect(await build()).toEqual({ sheet: "Beam" });
    const result = await cell(4, 2);
    expect(result.value).toBeCloseTo(friction(0.2), 10);
    expect(result.formula).toBe('=KERN.FRICTION_STRESS(0.3,C3,0.003,"1/m",1395,12)');
    expect(result.text).toBe("1267.3");
    expect((await cell(5, 2)).value).toBe("OK");
    expect((await cell(6, 2)).value).toBeCloseTo(2 * friction(0.2), 10);
  });

  it("keeps text text, whatever it looks like", async () => {
    await build();
    expect(await cell(3, 0)).toEqual({ value: "=1+1", text: "=1+1" });
    expect(await cell(3, 1)).toEqual({ value: "5.10", text: "5.10" });
    expect(await cell(3, 2)).toEqual({ value: "TRUE", text: "TRUE" });
    expect((await cell(9, 2)).value).toBe(true);
    expect((await host.evaluate("ISTEXT(C4)", "Beam"))[0]![0]!.value).toBe(true);
  });

  it("reads an empty cell as null", async () => {
    await build();
    expect(await cell(7, 2)).toEqual({ value: null, text: "" });
  });

  it("reads what lies beyond the sheet's edge as blank", async () => {
    await build();
    const [line] = await host.read("Beam", { row: 0, column: 0, rows: 1, columns: 5000 });
    expect(line).toHaveLength(5000);
    expect(line!.at(-1)!.value).toBeNull();
    const beyond = await host.read("Beam", { row: 1_000_000, column: 0, rows: 2, columns: 1 });
    expect(beyond.map(([cell]) => cell!.value)).toEqual([null, null]);
  });

  it("tells what it is doing, up to the end", async () => {
    const progress = vi.fn();
    await build("Beam", { progress });
    expect(progress.mock.calls.length).toBeGreaterThan(2);
    const done = progress.mock.calls.map(([n]) => n as number);
    expect([...done].sort((a, b) => a - b)).toEqual(done);
    expect(progress.mock.lastCall!.slice(0, 2)).toEqual([smallPlan.cells.length, smallPlan.cells.length]);
  });

  it("leaves the user's own sheet alone", async () => {
    await host.enter({ sheet: "Sheet1", row: 0, column: 0 }, 41);
    await build();
    expect(await cell(0, 0, "Sheet1")).toMatchObject({ value: 41 });
  });
});

describe("recalculation and messages", () => {
  it("follows an input", async () => {
    await build();
    await host.enter({ sheet: "Beam", row: 2, column: 2 }, 0.5);
    expect((await cell(4, 2)).value).toBeCloseTo(friction(0.5), 10);
    expect((await cell(5, 2)).value).toBe("FAIL");
  });

  it("says why a cell shows an error, and forgets it when the input is right again", async () => {
    await build();
    expect((await cell(8, 2)).error).toEqual({
      code: "#VALUE!",
      message: expect.stringMatching(/friction coefficient.*is missing/) as string,
    });
    await host.enter({ sheet: "Beam", row: 2, column: 2 }, -0.1);
    expect((await cell(4, 2)).error).toEqual({
      code: "#VALUE!",
      message: expect.stringMatching(/−0\.1 1\/rad is below 0/) as string,
    });
    expect((await cell(6, 2)).error?.code).toBe("#VALUE!");
    expect((await cell(6, 2)).error?.message).toBeUndefined();
    await host.enter({ sheet: "Beam", row: 2, column: 2 }, "rough");
    expect((await cell(4, 2)).error?.message).toMatch(/is the text “rough”/);
    await host.enter({ sheet: "Beam", row: 2, column: 2 }, 0.2);
    expect((await cell(4, 2)).error).toBeUndefined();
    expect((await cell(4, 2)).value).toBeCloseTo(friction(0.2), 10);
  });

  it("tells listeners of each calculation until they unsubscribe", async () => {
    await build();
    const listener = vi.fn();
    const end = host.onCalculated(listener);
    await host.enter({ sheet: "Beam", row: 2, column: 2 }, 0.3);
    await vi.waitFor(() => expect(listener).toHaveBeenCalled());
    end();
    listener.mockClear();
    await host.enter({ sheet: "Beam", row: 2, column: 2 }, 0.4);
    await new Promise((resolve) => setTimeout(resolve, 50));
    expect(listener).not.toHaveBeenCalled();
  });
});

describe("protection", () => {
  it("leaves the unlocked cells to the user and guards the rest", async () => {
    await build();
    await host.enter({ sheet: "Beam", row: 3, column: 0 }, "free text");
    expect((await cell(3, 0)).value).toBe("free text");
    await expect(host.enter({ sheet: "Beam", row: 4, column: 2 }, 1)).rejects.toThrow(/protected/);
    expect((await cell(4, 2)).formula).toMatch(/FRICTION_STRESS/);
    await expect(host.enter({ sheet: "Beam", row: 11, column: 4 }, 1)).rejects.toThrow(/protected/);
  });
});

describe("names", () => {
  it("finds a name of the sheet, whatever its case, on that sheet only", async () => {
    await build();
    expect(await host.resolveName("KB_MU", "Beam")).toBe("Beam!$C$3");
    expect(await host.resolveName("kb_all", "Beam")).toBe("Beam!$C$3:$C$5");
    expect(await host.resolveName("kb_mu", "Sheet1")).toBeUndefined();
    expect(await host.resolveName("kb_none", "Beam")).toBeUndefined();
  });

  it("keeps the same name on two sheets apart", async () => {
    await build("Beam");
    await build("Beam 2");
    await host.enter({ sheet: "Beam 2", row: 2, column: 2 }, 0.5);
    expect((await cell(4, 2, "Beam")).value).toBeCloseTo(friction(0.2), 10);
    expect((await cell(4, 2, "Beam 2")).value).toBeCloseTo(friction(0.5), 10);
    expect(await host.resolveName("kb_mu", "Beam 2")).toBe("'Beam 2'!$C$3");
    expect(await host.resolveName("kb_mu", "Beam")).toBe("Beam!$C$3");
    // Rather no value than the other sheet's.
    expect((await host.evaluate("kb_mu", "Beam 2"))[0]![0]!.error?.code).toBe("#NAME?");
  });
});

describe("selection", () => {
  it("selects a cell on another sheet and tells it", async () => {
    await build();
    const places: unknown[] = [];
    const end = host.onSelection((place) => places.push(place));
    await host.select({ sheet: "Sheet1", row: 2, column: 1 });
    await host.select({ sheet: "Beam", row: 4, column: 2 });
    expect(await host.selection()).toEqual({ sheet: "Beam", row: 4, column: 2, rows: 1, columns: 1 });
    expect(places.at(-1)).toEqual({ sheet: "Beam", row: 4, column: 2, rows: 1, columns: 1 });
    end();
  });

  it("refuses a sheet that does not exist", async () => {
    await expect(host.select({ sheet: "None", row: 0, column: 0 })).rejects.toThrow("“None”");
    await expect(host.read("None", { row: 0, column: 0, rows: 1, columns: 1 })).rejects.toThrow("“None”");
  });
});

describe("evaluating", () => {
  it("reads relative references and names as a cell of that sheet, and touches nothing", async () => {
    await build();
    expect((await host.evaluate("C5/2", "Beam"))[0]![0]!.value).toBeCloseTo(friction(0.2) / 2, 10);
    expect((await host.evaluate("=kb_mu*10", "Beam"))[0]![0]!.value).toBe(2);
    expect((await cell(0, 0)).value).toBe("Small sheet");
  });

  it("gives ranges and spills as rows", async () => {
    await build();
    expect((await host.evaluate("SEQUENCE(2,2)", "Beam")).map((row) => row.map(({ value }) => value))).toEqual([
      [1, 2],
      [3, 4],
    ]);
  });

  it("gives messages, of missing and surplus arguments too", async () => {
    const error = async (formula: string) => (await host.evaluate(formula, "Sheet1"))[0]![0]!.error;
    expect(await error("KERN.FRICTION_STRESS(0.3)")).toMatchObject({
      code: "#VALUE!",
      message: expect.stringContaining("is missing") as string,
    });
    expect(await error('KERN.FRICTION_STRESS(0.3,0.2,0.003,"1/m",1395,12,1)')).toMatchObject({
      message: expect.stringContaining("7 were given") as string,
    });
    expect(await error("1/0")).toEqual({ code: "#DIV/0!" });
    expect(await error("SUM(1,")).toMatchObject({
      code: "#ERROR!",
      message: expect.stringContaining("cannot be read") as string,
    });
    expect(await error("1+1")).toBeUndefined();
  });

  it("keeps its messages apart from those of the cells", async () => {
    await build();
    const before = await cell(8, 2);
    await host.evaluate('KERN.FRICTION_STRESS(0.3,0.2,0.003,"1/m",-1,12)', "Beam");
    expect(await cell(8, 2)).toEqual(before);
  });

  it("passes on an error in an argument instead of computing with it", async () => {
    expect((await host.evaluate('KERN.FRICTION_STRESS(0.3,NA(),0.003,"1/m",1395,12)', "Sheet1"))[0]![0]!.error).toEqual(
      {
        code: "#N/A",
      },
    );
  });
});

describe("nothing half-built stays", () => {
  const untouched = async () => {
    expect((await host.evaluate("kb_mu", "Sheet1"))[0]![0]!.error?.code).toBe("#NAME?");
    expect(await host.sheetNames()).toEqual(["Sheet1"]);
    // Its names went with it: the same plan builds again.
    await build();
    expect((await cell(4, 2)).value).toBeCloseTo(friction(0.2), 10);
  };

  it("deleted by somebody else meanwhile: that is said", async () => {
    const { host: own, workbook } = nodeGrid();
    const deleteIt = (): void => {
      const sheet = workbook.getSheetByName("Beam");
      if (sheet) workbook.deleteSheet(sheet.getSheetId());
    };
    await expect(own.apply(smallPlan, { sheetName: "Beam", progress: deleteIt })).rejects.toThrow(
      "“Beam” was deleted while it was being built",
    );
    expect(await own.sheetNames()).toEqual(["Sheet1"]);
    expect(await own.resolveName("kb_mu", "Sheet1")).toBeUndefined();
    own.dispose();
  });

  it("neither completed nor removed: that is said, with the reason", async () => {
    const { host: own, workbook } = nodeGrid();
    const removing = vi.spyOn(Object.getPrototypeOf(workbook) as typeof workbook, "deleteSheet").mockReturnValue(false);
    const fail = (): void => {
      if (workbook.getSheetByName("Beam")) throw new Error("no more paper");
    };
    try {
      await expect(own.apply(smallPlan, { sheetName: "Beam", progress: fail })).rejects.toMatchObject({
        name: "SheetLeft",
        message: "“Beam” could not be completed (no more paper), nor could it be removed: delete it by hand.",
      });
      expect(await own.sheetNames()).toEqual(["Sheet1", "Beam"]);
    } finally {
      removing.mockRestore();
      own.dispose();
    }
  });

  it.each([0, 1, 2, 3])("cancelled at step %i", async (step) => {
    const controller = new AbortController();
    let steps = 0;
    await expect(
      build("Beam", {
        signal: controller.signal,
        progress: () => {
          if (steps++ === step) controller.abort();
        },
      }),
    ).rejects.toMatchObject({ name: "AbortError" });
    await untouched();
  });

  it("cancelled before it begins", async () => {
    await expect(build("Beam", { signal: AbortSignal.abort() })).rejects.toMatchObject({ name: "AbortError" });
    await untouched();
  });

  it.each([0, 1, 2, 3])("an error thrown at step %i", async (step) => {
    let steps = 0;
    await expect(
      build("Beam", {
        progress: () => {
          if (steps++ === step) throw new Error("no more paper");
        },
      }),
    ).rejects.toThrow("no more paper");
    await untouched();
  });

  it("a name already taken, in whatever case, with a free one offered", async () => {
    await build("Beam");
    await expect(build("BEAM")).rejects.toMatchObject({ name: "SheetNameTaken", free: "BEAM 2" });
    expect(await host.sheetNames()).toEqual(["Sheet1", "Beam"]);
  });
});

describe("sheet names", () => {
  it.each([
    ["", /empty/],
    ["   ", /empty/],
    ["x".repeat(32), /32 characters; at most 31/],
    ["a/b", /contains \//],
    ["a[1]:*?\\", /contains \[ \] : \* \? \\/],
    ["'a", /apostrophe/],
    ["a'", /apostrophe/],
    ["HISTORY", /“History” for itself/],
  ])("refuses %j", (name, message) => {
    expect(() => checkSheetName(name, [])).toThrow(message);
  });

  it.each(["Beam", "x".repeat(31), "Träger 1", "it's", "A1"])("takes %j", (name) => {
    expect(() => checkSheetName(name, ["Sheet1"])).not.toThrow();
  });

  it("offers a free name that is not too long", () => {
    const name = "x".repeat(31);
    try {
      checkSheetName(name, [name, `${"x".repeat(29)} 2`]);
      expect.unreachable();
    } catch (error) {
      expect(error).toBeInstanceOf(SheetNameTaken);
      expect((error as SheetNameTaken).free).toBe(`${"x".repeat(29)} 3`);
    }
  });

  it("builds on a sheet whose name needs quotes", async () => {
    await build("It's A1");
    expect((await cell(4, 2, "It's A1")).value).toBeCloseTo(friction(0.2), 10);
  });
});
