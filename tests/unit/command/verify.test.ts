import { mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterEach, beforeEach, describe, expect, it } from "vitest";
import { worksheetFunctions } from "../../../functions/index.ts";
import { publishedCases } from "../../../src/command/cases.ts";
import { verificationBook } from "../../../src/command/verify/book.ts";
import { runVerify } from "../../../src/command/verify/run.ts";
import { survey, type Survey } from "../../../src/command/verify/survey.ts";
import { surveyText } from "../../../src/command/verify/text.ts";
import { halfLastDigit, type PublishedCase } from "../../../src/published/index.ts";
import { listener } from "./listener.ts";

let folder: string;
beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), "verify-"));
});
afterEach(() => rmSync(folder, { recursive: true }));

function run(...words: readonly string[]) {
  const { voice, heard } = listener();
  const code = runVerify(words, voice);
  return { code, ...heard() };
}

const cases = publishedCases();
const base = { source: "a work of tests", where: "p. 1", basis: "published", unit: "MPa" } as const;
const right: PublishedCase = {
  ...base,
  id: "RIGHT",
  function: "FRICTION_STRESS",
  rows: [{ inputs: [0, 0, 0, "1/m", 1000, 10], printed: "1000" }],
};
const wrong: PublishedCase = {
  ...base,
  id: "WRONG",
  function: "FRICTION_STRESS",
  rows: [{ inputs: [0, 0, 0, "1/m", 1000, 10], printed: "1002" }],
};
const wide: PublishedCase = { ...wrong, id: "WIDE", tolerance: 3, because: "the source rounds on the way" };
const stray: PublishedCase = { ...right, id: "STRAY", function: "NO_SUCH_FUNCTION" };
const refused: PublishedCase = {
  ...right,
  id: "REFUSED",
  rows: [{ inputs: [0, 0, 0, "1/m", -1, 10], printed: "1000" }],
};
const old: PublishedCase = { ...wrong, id: "OLD", mustDiffer: true, note: "an older edition" };
const recalled: PublishedCase = {
  ...right,
  id: "RECALLED",
  basis: "published, from memory",
  note: "two printings disagree",
};
const planted = survey(worksheetFunctions, [right, wrong, wide, stray, refused, old, recalled]);
const concerns = (s: Survey, id: string) =>
  s.listed.filter(({ judgement }) => judgement.case.id === id).map(({ concern, reason }) => [concern, reason]);

describe("what is to be looked at", () => {
  it("holds every failing or disputed check with its reason, and no other", () => {
    expect(concerns(planted, "RIGHT")).toEqual([]);
    expect(concerns(planted, "WRONG")).toEqual([["failed", "printed 1002, computed 1000"]]);
    expect(concerns(planted, "WIDE")).toEqual([["wider tolerance", "the source rounds on the way"]]);
    expect(concerns(planted, "STRAY")).toEqual([["failed", "there is no function NO_SUCH_FUNCTION"]]);
    expect(concerns(planted, "REFUSED")).toEqual([["failed", expect.stringContaining("#VALUE!")]]);
    expect(concerns(planted, "OLD")).toEqual([["superseded", "an older edition"]]);
    expect(concerns(planted, "RECALLED")).toEqual([
      ["from memory", expect.stringContaining("not counted")],
      ["note", "two printings disagree"],
    ]);
    expect(planted.total).toMatchObject({ cases: 7, published: 5, fromMemory: 1, mustDiffer: 1, failed: 3 });
  });

  it("stands in the text and in the book", () => {
    const text = surveyText(planted).join("\n");
    const book = verificationBook(planted, "2000-01-01");
    for (const { judgement, reason } of planted.listed) {
      expect(text).toContain(judgement.case.id);
      expect(text).toContain(reason);
      expect(book).toContain(judgement.case.id);
    }
    expect(book).toContain("3 checks failed");
    expect(book).toContain("NO_SUCH_FUNCTION");
  });

  it("drops nothing of the project's own checks", () => {
    const found = survey(worksheetFunctions, cases);
    for (const c of cases) {
      const own = concerns(found, c.id).map(([concern]) => concern);
      expect(own.includes("from memory"), c.id).toBe(c.basis !== "published");
      expect(own.includes("superseded"), c.id).toBe(c.mustDiffer === true);
      expect(own.includes("wider tolerance"), c.id).toBe(
        c.rows.some((row) => (row.tolerance ?? c.tolerance ?? 0) > halfLastDigit(row.printed)),
      );
      expect(own.includes("note"), c.id).toBe(c.note !== undefined && !c.mustDiffer);
    }
  });
});

describe("the counts", () => {
  const found = survey(worksheetFunctions, cases);
  it("hold each function once, by subject and by basis", () => {
    const all = worksheetFunctions.filter((f) => f.formula ?? f.spill).length;
    expect(found.functions).toHaveLength(all);
    expect(found.byBasis.reduce((sum, b) => sum + b.functions, 0)).toBe(all);
    for (const b of found.byBasis) expect(b.published + b.fromMemoryOnly + b.unchecked, b.basis).toBe(b.functions);
    expect(found.byCheck.reduce((sum, b) => sum + b.cases, 0)).toBe(cases.length);
    expect(found.byCheck.reduce((sum, b) => sum + b.values, 0)).toBe(found.total.values);
  });

  it("leave no function without a published check and without its reason", () => {
    for (const f of found.functions) if (f.published === 0) expect(f.declaration.unpublished, f.id).toMatch(/\S{3}/);
  });
});

describe("the command", () => {
  it("explains itself and refuses what it does not know", () => {
    expect(run("--help").said).toContain("--html");
    for (const words of [["--htm"], ["--html", ""], ["--json", "--html", "x.html"], ["surplus"]])
      expect(run(...words), words.join(" ")).toMatchObject({ code: 2, said: "" });
  });

  it("writes the book with every check, its inputs, values and verdicts; no link leads nowhere", () => {
    const file = join(folder, "book.html");
    expect(run("--html", file)).toMatchObject({ complained: "" });
    const book = readFileSync(file, "utf8");
    for (const c of cases) {
      expect(book).toContain(`id="check-${c.id}"`);
      for (const { printed } of c.rows) expect(book, c.id).toContain(`<td>${printed.replace("-", "−")}`);
    }
    const ids = [...book.matchAll(/\bid="([^"]*)"/g)].map(([, id]) => id);
    expect(new Set(ids).size).toBe(ids.length);
    for (const [, to] of book.matchAll(/href="#([^"]*)"/g)) expect(ids).toContain(to);
    expect(book).not.toMatch(/<script|<link|<img|href="[^#]/);
  });

  it("leaves a file that is there as it is, unless it may be replaced", () => {
    const file = join(folder, "book.html");
    writeFileSync(file, "mine");
    expect(run("--html", file)).toMatchObject({
      code: 2,
      complained: expect.stringContaining("is there already") as string,
    });
    expect(readFileSync(file, "utf8")).toBe("mine");
    run("--html", file, "--force");
    expect(readFileSync(file, "utf8")).toContain("verification book");
  });

  it("says the same for programs", () => {
    const { said } = run("--json");
    const { checks, total, listed } = JSON.parse(said) as {
      readonly checks: readonly unknown[];
      readonly total: { readonly cases: number };
      readonly listed: readonly unknown[];
    };
    expect(checks).toHaveLength(total.cases);
    expect(listed.length).toBeGreaterThan(0);
  });
});
