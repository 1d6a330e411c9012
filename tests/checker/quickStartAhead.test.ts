/** A quick start that was begun while questions were still open gives what one begun with the last answer gives. */
import { afterEach, describe, expect, it, vi } from "vitest";
import { Calculation } from "../../src/cells/index.ts";
import { prepareQuickStart, quickStart, quickStartSheet, type Answers } from "../../src/checker/index.ts";
import { Trials } from "../../src/checker/quickStart/trial.ts";
import { planResults } from "../../src/hosts/host/planValues.ts";
import { templates } from "../../src/templates/index.ts";

/** A copy knows nothing of what was begun for another. */
const copyOf = (id: string) => ({ ...templates.find((one) => one.id === id)! });
const post = "post-tensioned-en1992-2004";
const beam: Answers = {
  L: 24,
  section: "I",
  h: 1200,
  fck: 50,
  gs: 4,
  ql: 4,
  demand: "XC2_XC4",
  product: "Y1860S7-15.7",
};

afterEach(() => vi.restoreAllMocks());

describe("a quick start begun ahead", () => {
  it("is done when the last answer is given, and computes no sheet again", async () => {
    const template = copyOf(post);
    await prepareQuickStart(template, beam);
    const sheets = vi.spyOn(Trials.prototype, "with");
    const ahead = quickStart(template, { ...beam });
    expect(sheets).toHaveBeenCalledTimes(0);
    expect(quickStart(copyOf(post), beam)).toEqual(ahead);
    expect(sheets.mock.calls.length).toBeGreaterThan(0);
  });

  it("has its sheet computed, to the values that it has when it is computed then", async () => {
    const template = copyOf(post);
    const given = { ...beam, tendons: 2, strands: 9 };
    await prepareQuickStart(template, given);
    const { plan, marked } = quickStartSheet(template, quickStart(template, given));
    const computing = vi.spyOn(Calculation.prototype, "valueAt");
    const ahead = planResults(marked, "Beam");
    expect(computing).toHaveBeenCalledTimes(0);
    // Asked for once more, or with an input changed, it is computed.
    expect(planResults(marked, "Beam")).toEqual(ahead);
    expect(computing.mock.calls.length).toBe(ahead!.size);
    const inputs = { ...plan.inputs, fck: 20 };
    const other = quickStartSheet(template, { inputs, assumed: new Set(), proposed: new Set() });
    const verdicts = (of: typeof marked) => {
      const results = planResults(of, "Beam");
      return of.cells.flatMap((cell) => (cell.role === "verdict" ? [results?.get(cell)?.value] : []));
    };
    expect(verdicts(other.marked)).toContain("FAIL");
    expect(verdicts(marked)).not.toEqual(verdicts(other.marked));
  });

  it("goes on from where it was interrupted", async () => {
    const template = copyOf(post);
    const whole = vi.spyOn(Trials.prototype, "with");
    const expected = quickStart(copyOf(post), beam);
    const ofWhole = whole.mock.calls.length;
    const interrupted = new AbortController();
    const sheets = whole.mockClear();
    const preparing = prepareQuickStart(template, beam, interrupted.signal);
    await vi.waitUntil(() => sheets.mock.calls.length === 2, { timeout: 60_000, interval: 1 });
    interrupted.abort();
    await preparing;
    expect(ofWhole).toBeGreaterThan(2);
    expect(quickStart(template, beam)).toEqual(expected);
    expect(sheets).toHaveBeenCalledTimes(ofWhole);
  });

  it("gives way to other answers that are begun with, and ends", { timeout: 60_000 }, async () => {
    const template = copyOf(post);
    const others = { ...beam, gs: 5 };
    await Promise.all([prepareQuickStart(template, beam), prepareQuickStart(template, others)]);
    const sheets = vi.spyOn(Trials.prototype, "with");
    const found = quickStart(template, others);
    expect(sheets).toHaveBeenCalledTimes(0);
    expect(found).toEqual(quickStart(copyOf(post), others));
  });

  it("is there for another press of the button", () => {
    const template = copyOf(post);
    const found = quickStart(template, beam);
    const sheets = vi.spyOn(Trials.prototype, "with");
    expect(quickStart(template, beam)).toBe(found);
    expect(sheets).toHaveBeenCalledTimes(0);
  });

  it("is left where the answers are others in the end", async () => {
    const template = copyOf(post);
    const interrupted = new AbortController();
    const sheets = vi.spyOn(Trials.prototype, "with");
    const preparing = prepareQuickStart(template, beam, interrupted.signal);
    await vi.waitUntil(() => sheets.mock.calls.length > 0, { timeout: 60_000, interval: 1 });
    interrupted.abort();
    await preparing;
    const others = { ...beam, tendons: 3 };
    const found = quickStart(template, others);
    expect(found.inputs["tendons"]).toBe(3);
    expect(found).toEqual(quickStart(copyOf(post), others));
  });

  it("is refused in the same words when it is asked for", async () => {
    const template = copyOf("pre-tensioned-en1992-2004");
    const bars = { ...beam, product: "Y1050H-36" };
    const words = /Y1050H-36 is a bar, which is not pre-tensioned/;
    await expect(prepareQuickStart(template, bars)).rejects.toThrow(words);
    for (let time = 1; time <= 2; time++) expect(() => quickStart(template, bars)).toThrow(words);
  });

  it("begins nothing once something else is answered", async () => {
    const sheets = vi.spyOn(Trials.prototype, "with");
    const interrupted = new AbortController();
    const preparing = prepareQuickStart(copyOf(post), beam, interrupted.signal);
    interrupted.abort();
    await preparing;
    expect(sheets).toHaveBeenCalledTimes(0);
  });
});
