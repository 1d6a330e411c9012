/**
 * All tendons stressed again before the superimposed load: creep and shrinkage up to then are made up for, and what Annex B
 * and 3.1.4 of EN 1992-1-1 leave of them goes into (5.46), with relaxation in full. Recomputed from the clauses.
 */
import { expect, test } from "vitest";
import { alderQuay } from "../independent/alderQuay.ts";
import { beam } from "../independent/postTensionedBeam.ts";
import { linkedTemplates, templates } from "../../src/templates/index.ts";
import { builtSheet, exampleOf, type BuiltSheet } from "./builtSheet.ts";

const id = "post-tensioned-en1992-2004";
const example = templates.find((t) => t.id === id)!.example.inputs;

test("the losses left are those of the creep and shrinkage still to come", () => {
  const sheet = builtSheet(id, { ...example, tAgain: 45 });
  const { rows } = beam({ ...alderQuay, tAgain: 45 });
  const once = beam(alderQuay).rows;
  sheet.agree(
    "dcsr",
    rows.map(({ dcsr }) => dcsr),
  );
  sheet.agree(
    "lCr",
    rows.map(({ creep }) => creep),
  );
  sheet.agree(
    "lSh",
    rows.map(({ shrinkage }) => shrinkage),
  );
  sheet.agree(
    "lRe",
    rows.map(({ relaxation }) => relaxation),
  );
  sheet.agree(
    "Pinf",
    rows.map(({ Pinf }) => Pinf / 1000),
  );
  rows.forEach(({ dcsr }, i) => expect(dcsr).toBeLessThan(once[i]!.dcsr));
});

test("right after it the force is that without elastic shortening, in the concrete, the tendons and all later stages", () => {
  const sheet = builtSheet(id, { ...example, tAgain: 45, fckAgain: 36 });
  const { rows, again, stages, limits } = beam({ ...alderQuay, tAgain: 45, fckAgain: 36 });
  const of = (take: (row: (typeof rows)[number]) => number): readonly number[] => rows.map(take);
  sheet.agree(
    "agP",
    of(({ Pa }) => Pa / 1000),
  );
  sheet.agree(
    "agt",
    of((row) => row.again[0]),
  );
  sheet.agree(
    "agb",
    of((row) => row.again[1]),
  );
  sheet.agree(
    "agLow",
    of(({ againLow }) => againLow),
  );
  sheet.agree(
    "agHigh",
    of(({ againHigh }) => againHigh),
  );
  sheet.agree(
    "sw",
    of(({ weak }) => weak),
  );
  sheet.agree(
    "spChar",
    of(({ spChar }) => spChar),
  );
  sheet.agree("fcAgain", [again.fc]);
  sheet.agree("ftAgain", [again.ft]);
  sheet.agree("agUs", [again.tendons / limits.initial]);
  sheet.agree("agUf", [again.strength]);
  sheet.agree(
    "vmin",
    stages.flatMap(({ at }) => at.map(({ min }) => min)),
  );
  sheet.agree(
    "vmax",
    stages.flatMap(({ at }) => at.map(({ max }) => max)),
  );
  expect(Math.max(...of(({ againHigh }) => againHigh))).toBeLessThanOrEqual(again.fc);
  expect(sheet.verdicts().overall).toBe("WARNINGS");
});

const said = (sheet: BuiltSheet, name: string): unknown =>
  sheet.verdicts().checks.find(({ description }) => description.includes(name))?.verdict;

test("it fails where the strength at transfer carries the force after elastic shortening and not the one before", () => {
  const { rows, again, stages } = beam({ ...alderQuay, tAgain: 45 });
  expect(stages.flatMap(({ at }) => at).every(({ ok }) => ok)).toBe(true);
  expect(Math.max(...rows.map(({ againHigh }) => againHigh))).toBeGreaterThan(again.fc);
  const sheet = builtSheet(id, { ...example, tAgain: 45 });
  expect(said(sheet, "right after stressing again")).toBe("FAIL");
  expect(sheet.verdicts().overall).toBe("FAIL");
});

test("it fails where more strength is counted on than the concrete has by then", () => {
  const { again } = beam({ ...alderQuay, tAgain: 45, fckAgain: 41 });
  expect(again.strength).toBeGreaterThan(1);
  const sheet = builtSheet(id, { ...example, tAgain: 45, fckAgain: 41 });
  expect(said(sheet, "right after stressing again")).toBe("FAIL");
});

test.each(["deflection", "cross-check", "feasible-domain", "composite", "stressing-record"])(
  "the %s sheet leaves it open, and is never OK",
  (kind) => {
    const linked = `${kind}-post-tensioned-en1992-2004`;
    const template = linkedTemplates.find((t) => t.id === linked)!;
    const once = builtSheet(linked);
    expect(said(once, "stressed once")).toBe("OK");
    const again = builtSheet(linked, { ...exampleOf(template), tAgain: 45, fckAgain: 36 });
    expect(said(again, "stressed once")).toBe("OPEN");
    expect(["INCOMPLETE", "FAIL"]).toContain(again.verdicts().overall);
  },
);
