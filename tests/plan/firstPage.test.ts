/** The first page says whether it is all right and why, sorted by live formulas. Common practice of calculation sheets, no source. */
import { describe, expect, test } from "vitest";
import { columns, expand, type Inputs } from "../../src/sheet/index.ts";
import { checkColumns } from "../../src/sheet/frontCells.ts";
import { fitsAsDescription } from "../../src/sheet/layout.ts";
import { allTemplates, templates } from "../../src/templates/index.ts";
import { exampleOf, planned, valuesOf } from "./builtSheet.ts";

const small: Inputs = {};

function firstPage(id: string, changes: Inputs = {}) {
  const template = templates.find((one) => one.id === id)!;
  const plan = expand(template, { ...template.example.inputs, ...small, ...changes });
  const values = valuesOf(plan);
  const text = (row: number, column: number): string => String(values[row]![column]!.value ?? "");
  const rows = plan.cells
    .filter(({ role, row }) => role === "utilisation" && text(row, columns.description) !== "")
    .map(({ row }) => row);
  const unlisted = plan.cells
    .filter(({ role, row }) => role === "utilisation" && text(row, columns.description) === "")
    .flatMap(({ row }) => [checkColumns.value, checkColumns.limit].map((column) => text(row, column).trim()));
  const shown = (at: { readonly row: number; readonly column: number }): unknown => values[at.row]![at.column]!.value;
  return {
    band: text(1, 0),
    sentence: text(1, 3),
    heading: text(0, 0),
    title: plan.cells.filter(({ role }) => role === "titleRight").map(({ row, column }) => text(row, column))[0],
    checks: rows.map((row) => ({
      text: text(row, columns.description),
      value: text(row, checkColumns.value),
      limit: text(row, checkColumns.limit),
      verdict: text(row, columns.verdict),
      utilisation: values[row]![columns.from]!.value,
    })),
    warnings: plan.cells
      .filter(({ role, row }) => role === "warning" && row < plan.print.pages!.body)
      .map(({ row, column }) => text(row, column))
      .filter(Boolean),
    /** Value and limit in rows where no check is named. */
    unlisted,
    // What gathers the others is listed where it does not pass.
    listed: plan.summary.checks
      .filter(({ aside, verdict }) => !aside || shown(verdict) !== "OK")
      .map(({ description, verdict }) => [description, shown(verdict)] as const),
    overall: shown(plan.summary.overall),
    text: plan.cells
      .filter(({ role, row }) => role === "field" && row < plan.print.pages!.body)
      .map(({ row, column }) => text(row, column)),
  };
}

describe.each(templates.map(({ id }) => id))("the first page of %s", (id) => {
  test("repeats the overall verdict and every check once, the higher utilisation first", () => {
    const page = firstPage(id);
    expect(page.band).toBe(page.overall);
    expect(page.title).toContain("Alder Quay");
    const edition = /(en|is)(\d+)-(\d{4})$/.exec(id)!;
    expect(page.heading).toMatch(new RegExp(` · ${edition[1]!.toUpperCase()} ${edition[2]}(-1-1)?:${edition[3]}`));
    expect(page.checks.map(({ text }) => text).sort()).toEqual(page.listed.map(([text]) => text).sort());
    const passed = page.checks.filter(({ verdict }) => verdict === "OK");
    const numbers = passed.map(({ utilisation }) => (typeof utilisation === "number" ? utilisation : 0));
    expect(numbers).toEqual([...numbers].sort((a, b) => b - a));
    expect(page.sentence).toContain(page.checks[0]!.text);
    expect(page.unlisted.filter((text) => text !== "")).toEqual([]);
  });
});

describe("the first page", () => {
  const id = "post-tensioned-en1992-2004";
  test("begins with what fails, then what cannot be judged, whatever its utilisation", () => {
    // Above k1·fpk = 0.8 · 1860 = 1488 and k2·fp0,1k = 0.9 · 1600 = 1440 MPa the jacking stress fails.
    const { checks, band, sentence } = firstPage(id, { sigj: [1450, 1400, 1400], fcmFull: null });
    const order = checks.map(({ verdict }) => verdict);
    const group = (verdict: string): number => (verdict === "FAIL" ? 0 : verdict === "OK" ? 2 : 1);
    expect(order.map(group)).toEqual([...order.map(group)].sort((a, b) => a - b));
    expect(order[0]).toBe("FAIL");
    expect(order).toContain("LIMIT MISSING");
    expect(band).not.toBe("OK");
    expect(sentence).toContain(checks[0]!.text);
  });
  test("lists the warnings that apply, each naming its input", () => {
    expect(firstPage(id).warnings).toEqual([]);
    const { warnings } = firstPage(id, { RH: 0.75 });
    expect(warnings.some((text) => /^input \d+\.\d+: RH, .*: /.test(text))).toBe(true);
  });
  test("names what a reader would take for checked", () => {
    expect(firstPage(id).sentence).toMatch(
      /stresses in service only, strength not checked; cross-check of losses on its own sheet; no temperature counted/,
    );
    const { sentence } = firstPage(id, { detailing: "NO", web: "NO", tempDiff: 8 });
    expect(sentence).toMatch(/detailing NOT CHECKED; web NOT CHECKED/);
    expect(sentence).not.toContain("no temperature");
  });
  test("names the inputs that are missing, and no check passes for want of a result", () => {
    const { sentence, band, checks } = firstPage(id, { product: null, fpkIn: null, tEnd: null });
    expect(band).toBe("INCOMPLETE");
    expect(sentence).toMatch(/^Inputs missing: (\d+\.\d+ [^,]+, )*\d+\.\d+ fpk/);
    expect(sentence).toContain("t∞");
    expect(checks.find(({ text }) => text === "failed checks")!.verdict).toBe("OPEN");
    const zero = checks.filter(({ verdict, utilisation }) => verdict === "LIMIT MISSING" && utilisation === 0);
    expect(zero).toEqual([]);
  });
  test("tells concrete, strands, jacking and loads", () => {
    const { text } = firstPage(id, { fck: 42.5, strands: [6, 6, 5], sigj: [1400, 1395, 1400], gs: 6.5, ql: 15 });
    expect(text).toEqual(
      expect.arrayContaining([
        "fck = 42.5 MPa at 28 days",
        "17 in all: 3 × 5 to 6",
        "σp0 = 1395 to 1400 MPa",
        "gs = 6.50, q = 15.00 kN/m",
      ]),
    );
    expect(firstPage(id, { fck: null, gs: null }).text).toEqual(
      expect.arrayContaining(["–", "gs = –, q = 15.00 kN/m"]),
    );
  });
  test("names caveats in words that are not cut off", () => {
    const { checks } = firstPage(id, { detailing: "NO" });
    const caveats = checks.filter(({ text }) => text.includes("not checked"));
    expect(caveats).toHaveLength(2);
    for (const { text } of caveats) expect(fitsAsDescription(text), text).toBe(true);
  });
  test("says tension both ways: value over limit is the utilisation, and the stress stands beside its limit", () => {
    // −1.69 of −3.51 MPa; what pulls over what holds is 0.91.
    expect(firstPage(id).text).toContain("σ = -1.69, limit -3.51 MPa: 0.48");
  });
});

test.each(templates.map(({ id }) => id))("checks of %s have a value, a limit and a name that is not cut off", (id) => {
  const { checks } = firstPage(id);
  for (const { text, value, limit } of checks) {
    expect(fitsAsDescription(text), text).toBe(true);
    // The list of what fails has neither.
    if (text !== "failed checks") expect([value, limit], text).not.toContain("");
  }
});

test.each(allTemplates.filter(({ source }) => source).map(({ id }) => id))(
  "no name of a check of the linked %s is cut off on its first page",
  (id) => {
    const template = allTemplates.find((one) => one.id === id)!;
    const { plan, values } = planned(template, exampleOf(template));
    const names = plan.cells
      .filter(({ role, row }) => role === "utilisation" && row < plan.print.pages!.body)
      .map(({ row }) => String(values[row]![columns.description]!.value ?? ""));
    expect(names.filter((name) => name !== "").length).toBeGreaterThan(0);
    expect(names.filter((name) => !fitsAsDescription(name))).toEqual([]);
  },
);

test.each(templates.map(({ id }) => id))("%s: tension demand over resistance is what the row says", (id) => {
  const { checks, text } = firstPage(id);
  const { value, limit, utilisation } = checks.find((one) => one.text.startsWith("tension demand"))!;
  expect(Number(utilisation)).toBeGreaterThan(0);
  expect(Number(value) / Number(limit)).toBeCloseTo(Number(utilisation), 9);
  // What is left of the resistance is what is left between the stress and its limit, both to two decimals.
  const [, stress, allowed] = text.flatMap((one) => /^σ = (\S+), limit (\S+) MPa/.exec(one) ?? []);
  expect(Math.abs(Number(limit) - Number(value) - (Number(stress) - Number(allowed)))).toBeLessThanOrEqual(0.01);
});

test("no template says of a check what the verdicts do not count", () => {
  expect(JSON.stringify(templates)).not.toContain("NO LIMIT");
});
