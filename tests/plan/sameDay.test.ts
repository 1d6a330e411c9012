import { describe, expect, it } from "vitest";
import { conflictsIn } from "../../src/checker/index.ts";
import { allTemplates } from "../../src/templates/index.ts";
import { builtSheet, exampleOf, planned } from "./builtSheet.ts";

const templateOf = (id: string) => allTemplates.find((one) => one.id === id)!;

// Superposition: loads that begin on one day act together, as they would with a moment between them.
describe("variable load on the day of the superimposed load", () => {
  it.each(["post-tensioned-en1992-2004", "pre-tensioned-en1992-2004"])("%s takes it", (id) => {
    const example = exampleOf(templateOf(id));
    expect(conflictsIn(planned(templateOf(id), { ...example, tq: 60, tg: 60 }).plan)).toEqual([]);
    const same = builtSheet(id, { ...example, tq: 60, tg: 60 });
    const moment = builtSheet(id, { ...example, tq: 60.001, tg: 60 });
    expect(same.errors()).toEqual([]);
    const { overall, checks } = same.verdicts();
    expect(overall).toBe(moment.verdicts().overall);
    const after = moment.verdicts().checks;
    checks.forEach(({ utilisation }, i) => {
      if (typeof utilisation === "number") expect(utilisation).toBeCloseTo(after[i]!.utilisation as number, 4);
    });
  });

  it.each([
    "cross-check-post-tensioned-en1992-2004",
    "cross-check-pre-tensioned-en1992-2004",
    "deflection-post-tensioned-en1992-2004",
  ])("%s computes with it", (id) => {
    const example = exampleOf(templateOf(id));
    const same = builtSheet(id, { ...example, tq: 60, tg: 60 });
    expect(same.errors()).toEqual([]);
    const { checks } = same.verdicts();
    const after = builtSheet(id, { ...example, tq: 60.001, tg: 60 }).verdicts().checks;
    expect(checks.length).toBeGreaterThan(0);
    checks.forEach(({ verdict, utilisation }, i) => {
      expect(verdict).toBe(after[i]!.verdict);
      if (typeof utilisation === "number") expect(utilisation).toBeCloseTo(after[i]!.utilisation as number, 3);
    });
  });
});
