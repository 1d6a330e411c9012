import { describe, expect, it } from "vitest";
import { expand, type Plan } from "../../src/sheet/index.ts";
import { templates } from "../../src/templates/index.ts";
import { changeCell, type Fault } from "./excelFake/index.ts";
import { memoryCalculator } from "./excelFake/memoryCalculator.ts";
import { openFake } from "./openFake.ts";
import { smallPlan } from "./smallPlan.ts";

const calculator = memoryCalculator();
const demo = (id: string): Plan => {
  const template = templates.find((t) => t.id === id)!;
  return expand(template, template.example.inputs);
};
const quiet = { sheetName: "Beam", progress: () => undefined };

/** A workbook with something of the user's in it: two sheets, the second shown, a selection, a name. */
function withWork() {
  const open = openFake({ calculator });
  const { workbook } = open.excel;
  workbook.sheets.push({ ...structuredClone(workbook.sheets[0]!), id: "{own}", name: "Own" });
  changeCell(workbook.sheets[0]!, 0, 0, (cell) => {
    cell.value = 41;
  });
  workbook.names.set("density", "=Sheet1!$A$1");
  workbook.activeId = "{own}";
  workbook.sheets[1]!.selected = [{ row: 3, column: 2, rows: 2, columns: 2 }];
  return open;
}

async function counts(plan: Plan) {
  const { excel, host } = withWork();
  let told = 0;
  await host.apply(plan, { ...quiet, progress: () => void told++ });
  return { operations: excel.operations, requests: excel.requests, told };
}

async function failsClean(plan: Plan, fault: Fault): Promise<void> {
  const { excel, host, reported } = withWork();
  const before = excel.snapshot();
  excel.fault = fault;
  const where = `${fault.kind} ${fault.at}`;
  await expect(host.apply(plan, quiet), where).rejects.toMatchObject({
    code: "GeneralException",
    message: `injected fault at ${where}`,
  });
  expect(excel.snapshot(), where).toEqual(before);
  expect(reported, where).toEqual([]);
}

describe("while a sheet is built", () => {
  it("it bears its final name only once it is whole and protected", async () => {
    const { excel, host } = withWork();
    const seen: { readonly name: string; readonly done: boolean }[] = [];
    await host.apply(smallPlan, {
      ...quiet,
      progress: (done, of) => {
        for (const { name } of excel.workbook.sheets) seen.push({ name, done: done === of });
      },
    });
    expect(seen.filter(({ name, done }) => name === "Beam" && !done)).toEqual([]);
    expect(seen.some(({ name, done }) => name === "Beam" && done)).toBe(true);
  });
  it("somebody else deletes it: that is said, and nothing is left", async () => {
    const { excel, host } = withWork();
    const before = excel.snapshot();
    let told = 0;
    const build = host.apply(smallPlan, {
      ...quiet,
      progress: () => {
        if (++told === 3) excel.workbook.sheets.splice(2);
      },
    });
    await expect(build).rejects.toThrow("“Beam” was deleted while it was being built");
    expect(excel.snapshot().sheets.map(({ name }) => name)).toEqual(before.sheets.map(({ name }) => name));
  });
  it("a user who turned to another sheet stays there when it fails", async () => {
    const { excel, host } = withWork();
    const other = excel.workbook.sheets[0]!.id;
    const stop = new AbortController();
    const build = host.apply(smallPlan, {
      ...quiet,
      signal: stop.signal,
      progress: () => {
        excel.workbook.activeId = other;
        stop.abort();
      },
    });
    await expect(build).rejects.toMatchObject({ name: "AbortError" });
    expect(excel.workbook.activeId).toBe(other);
  });
});

describe("a fault while the small sheet is built leaves nothing", () => {
  it("at each operation in turn", async () => {
    const { operations } = await counts(smallPlan);
    expect(operations).toBeGreaterThan(100);
    for (let at = 1; at <= operations; at++) await failsClean(smallPlan, { kind: "operation", at });
  });

  it.each(["request", "answer"] as const)("at each %s lost", async (kind) => {
    const { requests } = await counts(smallPlan);
    for (let at = 1; at <= requests; at++) await failsClean(smallPlan, { kind, at });
  });
});

describe("functions that a plan brings along", () => {
  const functions = [
    { name: "KERN_TWICE_V1_0_0", formula: "LAMBDA(x,2*x)" },
    { name: "KERN_THRICE_V1_0_0", formula: "LAMBDA(x,3*x)" },
    { name: "KERN_HALF_V1_0_0", formula: "LAMBDA(x,x/2)" },
  ];
  const plan = { ...smallPlan, functions };
  const withNames = () => {
    const open = withWork();
    open.excel.workbook.names.set("kern_twice_v1_0_0", "=LAMBDA(x,2*x)");
    open.excel.workbook.names.set("kern_thrice_v1_0_0", "=LAMBDA(x,4*x)");
    return open;
  };

  it("are added, and replace what differs", async () => {
    const { excel, host } = withNames();
    await host.apply(plan, quiet);
    for (const { name, formula } of functions)
      expect(excel.workbook.names.get(name.toLowerCase()), name).toBe(`=${formula}`);
    expect(excel.workbook.names.get("density")).toBe("=Sheet1!$A$1");
  });

  it("go when the build fails or is cancelled, and what stood there comes back", async () => {
    const whole = withNames();
    await whole.host.apply(plan, quiet);
    for (let at = 1; at <= whole.excel.operations; at++) {
      const { excel, host } = withNames();
      const before = excel.snapshot();
      excel.fault = { kind: "operation", at };
      await expect(host.apply(plan, quiet), `operation ${at}`).rejects.toMatchObject({ code: "GeneralException" });
      expect(excel.snapshot(), `operation ${at}`).toEqual(before);
    }
    const { excel, host } = withNames();
    const before = excel.snapshot();
    const controller = new AbortController();
    const progress = (done: number, of: number): void => {
      if (done > of / 2) controller.abort();
    };
    await expect(host.apply(plan, { ...quiet, signal: controller.signal, progress })).rejects.toMatchObject({
      name: "AbortError",
    });
    expect(excel.snapshot()).toEqual(before);
  });
});

describe("a fault while an example sheet is built leaves nothing", () => {
  it.each(["request", "answer"] as const)(
    "at each %s lost",
    async (kind) => {
      const plan = demo("post-tensioned-en1992-2004");
      const { requests } = await counts(plan);
      for (let at = 1; at <= requests; at++) await failsClean(plan, { kind, at });
    },
    400_000,
  );
});

describe("cancelling leaves nothing", () => {
  it("at each word of progress, and before it begins", async () => {
    const { told } = await counts(smallPlan);
    for (let at = 0; at <= told; at++) {
      const { excel, host } = withWork();
      const before = excel.snapshot();
      const controller = new AbortController();
      if (at === 0) controller.abort();
      let n = 0;
      await expect(
        host.apply(smallPlan, {
          ...quiet,
          signal: controller.signal,
          progress: () => {
            if (++n === at) controller.abort();
          },
        }),
        `word ${at}`,
      ).rejects.toMatchObject({ name: "AbortError" });
      expect(excel.snapshot(), `word ${at}`).toEqual(before);
    }
  });

  it("when who listens to the progress falls over", async () => {
    const { told } = await counts(smallPlan);
    for (let at = 1; at <= told; at++) {
      const { excel, host } = withWork();
      const before = excel.snapshot();
      let n = 0;
      await expect(
        host.apply(smallPlan, {
          ...quiet,
          progress: () => {
            if (++n === at) throw new Error("no more paper");
          },
        }),
      ).rejects.toThrow("no more paper");
      expect(excel.snapshot()).toEqual(before);
    }
  });

  it("while cells are still being computed", async () => {
    const { excel, host } = withWork();
    const before = excel.snapshot();
    excel.busyLooks = Infinity;
    const controller = new AbortController();
    const building = host.apply(smallPlan, { ...quiet, signal: controller.signal });
    setTimeout(() => controller.abort(), 0);
    await expect(building).rejects.toMatchObject({ name: "AbortError" });
    expect(excel.snapshot()).toEqual(before);
  });
});

describe("a clean-up that fails", () => {
  it("is tried again, and the first fault reported", async () => {
    const { excel, host, reported } = withWork();
    const before = excel.snapshot();
    // The fault that ends building, and then one more.
    let faults = 0;
    excel.watch = (label) => {
      if ((label === "Range.merge" || label === "Worksheet.delete") && faults++ < 2) throw new Error(`no ${label}`);
    };
    await expect(host.apply(smallPlan, quiet)).rejects.toThrow("no Range.merge");
    expect(reported.map(String)).toEqual(["Error: no Worksheet.delete"]);
    expect(excel.snapshot()).toEqual(before);
  });

  it("is said with both reasons where it fails for good", async () => {
    const { excel, host } = withWork();
    excel.watch = (label) => {
      if (label === "Range.merge" || label === "Worksheet.delete") throw new Error(`no ${label}`);
    };
    const error = await host.apply(smallPlan, quiet).then(
      () => undefined,
      (reason: unknown) => reason as AggregateError,
    );
    expect(error).toBeInstanceOf(AggregateError);
    expect(error!.message).toContain(
      "“Beam” could not be completed (no Range.merge), nor could it be removed (no Worksheet.delete): " +
        "delete the sheet “Beam”",
    );
    expect((error!.cause as Error).message).toBe("no Range.merge");
  });
});
