/**
 * `npm run bench`: cost of a worksheet function and how it grows with long ranges, sizes of what loads first, times in the workbench.
 * Ratios and medians of one run on one machine; nothing here decides a test.
 */
import { a1 } from "../../src/cells/index.ts";
import { readdirSync } from "node:fs";
import { join } from "node:path";
import { measure } from "mitata";
import { buildIfStale, dist } from "../../src/command/build.ts";
import { formulas, read, run, type Formula } from "../../src/core/index.ts";
import { expand } from "../../src/sheet/index.ts";
import { exampleOf } from "../../src/reference/index.ts";
import { templates } from "../../src/templates/index.ts";
import { worksheetFunctions, type WorksheetFunction } from "../../functions/index.ts";
import { openGridInNode } from "../../src/hosts/index.ts";
import { openWorkshop, whenReady } from "../browser/browser.ts";
import { mostFirst, namedBy, sum, zipped } from "./firstLoad.ts";
import { longRanges } from "./longRanges.ts";

const say = (what: string, value: string, aim = ""): void =>
  console.log(`${what.padEnd(62)}${value.padStart(14)}${aim && `   aim: ${aim}`}`);
const median = (values: readonly number[]): number => [...values].sort((a, b) => a - b)[Math.floor(values.length / 2)]!;

async function functionCost(): Promise<void> {
  const f: Formula = formulas.find(({ id }) => id === "FRICTION_STRESS")!;
  const of = worksheetFunctions.find(({ id }) => id === f.id)!;
  // By name: the order of arguments is the function's own affair.
  const { args } = exampleOf(of, []);
  const at = Object.keys(f.params).indexOf("x");
  const withX = (x: number) => args.map((argument, i) => (i === at ? x : argument));
  // Arguments that change from call to call, so that nothing is worked out once for all.
  const x = Float64Array.from({ length: 1024 }, (_, i) => 1 + i / 50);
  let i = 0;
  let sink = 0;
  const next = (): number => x[i++ & 1023]!;
  const values = { ...(read(f, args) as Readonly<Record<string, number | string>>), x: 0 };
  const time = async (body: () => void): Promise<number> =>
    (await measure(body, { min_samples: 200, batch_samples: 4096 } as never)).p50;
  const bare = await time(() => void (sink += 1395 * Math.exp(-(0.2 * 0.3 + 0.003 * next()))));
  const unchecked = await time(() => {
    values.x = 1000 * next();
    sink += f.compute(values);
  });
  const checked = await time(() => void (sink += run(f, withX(next()))));
  const called = await time(() => {
    const result = of.call(withX(next()));
    if ("error" in result) throw new Error(result.error.message);
    sink += result.value as number;
  });
  if (!Number.isFinite(sink)) throw new Error("the benchmark computes nonsense");
  say("FRICTION_STRESS, bare arithmetic", `${bare.toFixed(1)} ns`);
  say("  formula without checks", `${(unchecked / bare).toFixed(1)} ×`, "5 ×");
  say("  with checks and conversion", `${(checked / bare).toFixed(1)} ×`, "20 ×");
  say("  as a cell calls it", `${(called / bare).toFixed(1)} ×`);
}

function sizes(): void {
  say("functions.js, gzipped", `${zipped("functions.js").toFixed(1)} kB`, "60 kB");
  const first = namedBy("taskpane.html");
  say(
    `the panel's first load in the spreadsheet program (${first.join(", ")}), gzipped`,
    `${sum(first).toFixed(1)} kB`,
    `${mostFirst} kB`,
  );
  say("the workbench's without the grid, gzipped", `${sum(namedBy("index.html")).toFixed(1)} kB`);
  const parts = readdirSync(join(dist, "parts")).filter((name) => /\.(js|css)$/.test(name));
  say(
    "what loads later (views, templates, grid, mathjs), gzipped",
    `${sum(parts.map((name) => join("parts", name))).toFixed(0)} kB`,
  );
}

/** A cell of the demonstration sheet that holds a number to type over: its place and its value. */
function someInput(): { readonly row: number; readonly column: number; readonly value: number } {
  const template = templates[0]!;
  const plan = expand(template, template.example.inputs);
  const free = (row: number, column: number): boolean =>
    plan.unlocked.some(
      (a) => row >= a.row && row < a.row + a.rows && column >= a.column && column < a.column + a.columns,
    );
  const cell = plan.cells.find(
    ({ role, value, row, column }) => role === "input" && typeof value === "number" && value > 100 && free(row, column),
  )!;
  return { row: cell.row, column: cell.column, value: cell.value as number };
}

async function workbench(): Promise<void> {
  const shop = await openWorkshop();
  const input = someInput();
  const opened: number[] = [];
  const built: number[] = [];
  const recalculated: number[] = [];
  try {
    for (let n = 0; n < 3; n++) {
      const began = performance.now();
      const { page } = await shop.open();
      await page.waitForFunction(
        () => document.getElementById("opening")?.textContent?.startsWith("Building"),
        undefined,
        { polling: 20 },
      );
      const building = performance.now();
      await whenReady(page);
      opened.push(performance.now() - began);
      built.push(performance.now() - building);
      recalculated.push(
        ...(await page.evaluate(async ({ row, column, value }) => {
          const { host } = window.kernbook!;
          const { sheet } = (await host!.selection())!;
          const times: number[] = [];
          for (let i = 1; i <= 5; i++) {
            const done = new Promise<void>((resolve) => {
              const stop = host!.onCalculated(() => {
                stop();
                resolve();
              });
            });
            const start = performance.now();
            await host!.enter({ sheet, row, column }, value + i / 100);
            await done;
            times.push(performance.now() - start);
          }
          return times;
        }, input)),
      );
      await page.context().close();
    }
  } finally {
    await shop.close();
  }
  say("workbench: page opened until the demonstration sheet stands", `${(median(opened) / 1000).toFixed(2)} s`);
  say("  of which building the sheet", `${(median(built) / 1000).toFixed(2)} s`, "3 s");
  say("  recalculation after one input change", `${(median(recalculated) / 1000).toFixed(2)} s`, "1 s");
}

/** What a checker waits for, on the demonstration sheet, from the click or the selection until the panel shows the answer. */
async function checker(): Promise<void> {
  const template = templates[0]!;
  const plan = expand(template, template.example.inputs);
  const formulaCells = plan.cells.filter(({ formula }) => formula !== undefined);
  const calling = formulaCells.filter(({ formula }) => formula!.includes("KERN."));
  // Cells from all over the sheet: with calls and without.
  const some = (cells: typeof formulaCells, count: number) =>
    Array.from({ length: count }, (_, i) => cells[Math.floor(((i + 0.5) * cells.length) / count)]!);
  const asked = [...some(calling, 20), ...some(formulaCells, 20)].map(({ row, column }) => ({
    row,
    column,
    address: a1({ row, column }),
  }));
  const shop = await openWorkshop();
  try {
    const { page } = await shop.open();
    await whenReady(page);
    await page.getByRole("tab", { name: "Trace" }).click();
    const traced = await page.evaluate(async (cells) => {
      const { host } = window.kernbook!;
      const { sheet } = (await host!.selection())!;
      const view = document.querySelector("#kb-view-trace")!;
      const times: { readonly answered: number; readonly drawn: number }[] = [];
      for (const { row, column, address } of cells) {
        const start = performance.now();
        const answered = new Promise<number>((resolve, reject) => {
          const limit = setTimeout(() => reject(new Error(`Trace does not show ${address}`)), 20_000);
          const watch = new MutationObserver(() => {
            if (view.querySelector(".kb-address")?.textContent !== address) return;
            watch.disconnect();
            clearTimeout(limit);
            resolve(performance.now() - start);
          });
          watch.observe(view, { subtree: true, childList: true, characterData: true });
        });
        await host!.select({ sheet, row, column });
        const time = await answered;
        await new Promise((next) => requestAnimationFrame(() => setTimeout(next, 0)));
        times.push({ answered: time, drawn: performance.now() - start });
        await new Promise((next) => setTimeout(next, 100));
      }
      return times;
    }, asked);
    await page.getByRole("tab", { name: "Check" }).click();
    await page.getByRole("radio", { name: "Compare" }).check();
    const compared: number[] = [];
    for (let n = 0; n < 5; n++) {
      const start = performance.now();
      await page.locator("#kb-view-check .kb-primary").click();
      await page.getByText("Recalculating and comparing").waitFor({ state: "visible" });
      await page.getByText("Recalculating and comparing").waitFor({ state: "detached" });
      await page.getByText("AS ITS TEMPLATE").waitFor();
      compared.push(performance.now() - start);
    }
    const [first = NaN, ...later] = compared;
    say(
      `tracing a cell on a sheet of ${formulaCells.length} formulas, median of ${traced.length}`,
      `${median(traced.map(({ answered }) => answered)).toFixed(0)} ms`,
      "100 ms",
    );
    say("  slowest of them", `${Math.max(...traced.map(({ answered }) => answered)).toFixed(0)} ms`);
    say(
      "  until the screen is drawn, the grid scrolled to the cell included, median",
      `${median(traced.map(({ drawn }) => drawn)).toFixed(0)} ms`,
    );
    say("comparing that sheet, recalculation included, first time", `${(first / 1000).toFixed(2)} s`, "2 s");
    say("  again, median", `${(median(later) / 1000).toFixed(2)} s`, "2 s");
  } finally {
    await shop.close();
  }
}

/** How much of a recalculation is ours and how much the grid's: every call timed, in the grid without a screen. */
async function ourShare(): Promise<void> {
  let inside = 0;
  let calls = 0;
  const untimed = worksheetFunctions.map(({ call }) => call);
  worksheetFunctions.forEach((f, i) =>
    Object.assign(f, {
      call(args: Parameters<WorksheetFunction["call"]>[0]) {
        const start = performance.now();
        try {
          return untimed[i]!(args);
        } finally {
          inside += performance.now() - start;
          calls++;
        }
      },
    }),
  );
  const host = await openGridInNode();
  const template = templates[0]!;
  const { sheet } = await host.apply(expand(template, template.example.inputs), {
    sheetName: "Beam",
    progress: () => undefined,
  });
  const { row, column, value } = someInput();
  const runs: { readonly whole: number; readonly inside: number; readonly calls: number }[] = [];
  for (let i = 1; i <= 7; i++) {
    inside = 0;
    calls = 0;
    const start = performance.now();
    await host.enter({ sheet, row, column }, value + i / 100);
    runs.push({ whole: performance.now() - start, inside, calls });
  }
  host.dispose();
  worksheetFunctions.forEach((f, i) => Object.assign(f, { call: untimed[i] }));
  if (runs.some((run) => run.calls === 0)) throw new Error("an input was changed and none of our functions was called");
  const typical = [...runs].sort((a, b) => a.whole - b.whole)[Math.floor(runs.length / 2)]!;
  say("recalculation without a screen, after one input change", `${typical.whole.toFixed(0)} ms`);
  say(
    `  share of our functions in that recalculation (${typical.calls} calls)`,
    `${((100 * typical.inside) / typical.whole).toFixed(1)} %`,
  );
}

await buildIfStale((text) => console.error(text));
await functionCost();
longRanges();
sizes();
await workbench();
await checker();
await ourShare();
