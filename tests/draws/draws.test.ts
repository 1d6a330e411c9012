/**
 * Whatever is entered within the allowed ranges and without a conflict, no cell holds an error: a design that fails
 * is a verdict with figures. Nothing outside
 * the project is needed to judge that; what the values are is compared elsewhere.
 */
import { describe, expect, it } from "vitest";
import type { Inputs, InputValue } from "../../src/sheet/index.ts";
import { allTemplates, choosingTemplates, linkedTemplates, templates } from "../../src/templates/index.ts";
import { seed } from "../property/draws.ts";
import { draw, drawShape } from "./inputs.ts";
import { Random } from "./random.ts";
import { computedSheet, DrawnSheet } from "./sheet.ts";

const times = Number(process.env["KERNBOOK_TIMES"] ?? 1);
/**
 * How many shapes of a template are tried, and inputs of each: few in `npm test`, six and eight times as often as
 * asked in `npm run draws`, any number by
 * the variables. A new version of a template brings other draws.
 */
const whole = process.env["KERNBOOK_TIMES"] !== undefined;
const shapes = Number(process.env["KERNBOOK_SHAPES"] ?? (whole ? 6 * times : 2));
const drawsOfShape = Number(process.env["KERNBOOK_DRAWS"] ?? (whole ? 8 : 4));
const numberOf = (version: string): number => Number(version.replace(/\D/g, ""));

const ids = templates.map(({ id }) => id);
const linkedIds = linkedTemplates.map(({ id }) => id);
const choosingIds = choosingTemplates.map(({ id }) => id);
const everyId = [...ids, ...linkedIds, ...choosingIds];
const templateOf = (id: string) => allTemplates.find((one) => one.id === id)!;

const scaled = (value: InputValue, by: number): InputValue => {
  if (typeof value === "number") return value * by;
  return Array.isArray(value) ? (value as readonly InputValue[]).map((one) => scaled(one, by)) : value;
};

/** The example's inputs with some of them multiplied. */
function multiplied(example: Inputs, factors: Readonly<Record<string, number>>): Inputs {
  const changed = Object.entries(factors).flatMap(([id, by]) =>
    example[id] === undefined ? [] : [[id, scaled(example[id], by)] as const],
  );
  return { ...example, ...Object.fromEntries(changed) };
}

const widths = ["btop", "bwi", "bbot", "b", "bf", "bw", "bbox", "tweb", "ox"];
const lengths = ["L", "overU", "liftAt", "debond", "bedLength"];
const all = (names: readonly string[], by: number) => Object.fromEntries(names.map((name) => [name, by]));

const failing: readonly (readonly [string, Readonly<Record<string, number>>])[] = [
  ["loads × 50", { gs: 50, ql: 50 }],
  ["a tenth of the section", all(widths, 0.1)],
  ["twice the span", all(lengths, 2)],
];

describe("no cell holds an error", () => {
  it.each(everyId)("%s: whatever is drawn", { timeout: 120_000 * times }, (id) => {
    const linked = linkedIds.includes(id);
    const random = new Random(seed + everyId.indexOf(id) + numberOf(templateOf(id).version));
    const counts = { computed: 0, lost: 0 };
    // The time steps take most of the time: one shape in three has them.
    for (let s = 0; s < (linked ? Math.ceil(shapes / 3) : shapes); s++) {
      const sheet = new DrawnSheet(templateOf(id), drawShape(templateOf(id), random));
      const { shape } = sheet;
      const wanted = counts.computed + (linked ? drawsOfShape / 2 : drawsOfShape);
      // What is lost is drawn again.
      while (counts.computed < wanted && counts.lost <= wanted) {
        const values = draw(sheet, 0, random);
        const computed = sheet.with(values);
        if (computed.conflicts.length + computed.refused.length > 0) {
          counts.lost++;
          continue;
        }
        counts.computed++;
        const said = JSON.stringify({ shape, inputs: sheet.inputs.map((cell, i) => [cell.id, values[i]]) });
        expect(computed.errors.slice(0, 5), said).toEqual([]);
        expect(["OK", "WARNINGS", "FAIL", "INCOMPLETE"], said).toContain(computed.overall);
      }
    }
    if (times > 1) console.log(`${id}: ${counts.computed} draws computed, ${counts.lost} in conflict`);
    // A generator that loses many of its draws would try little; of few draws one may be lost by chance.
    expect(counts.computed).toBeGreaterThan(4 * (counts.lost - 1));
  });
});

/**
 * Some inputs of every draw anywhere they are allowed, at the very ends too. Many of these draws contradict themselves
 * and are refused, which is no error.
 */
describe("no cell holds an error over the full range of the inputs", () => {
  const wildShapes = whole ? shapes : 1;
  const wildDraws = Number(process.env["KERNBOOK_WILD"] ?? (whole ? 4 * drawsOfShape : 6));
  const alone = [...ids, ...choosingIds];
  it.each(alone)("%s", { timeout: 120_000 * times }, (id) => {
    const random = new Random(seed + 100 + alone.indexOf(id) + numberOf(templateOf(id).version));
    let computedOnes = 0;
    for (let s = 0; s < wildShapes; s++) {
      const shape = drawShape(templateOf(id), random);
      const sheet = new DrawnSheet(templateOf(id), shape);
      for (let k = 0; k < wildDraws; k++) {
        const values = draw(sheet, random.pick([0.02, 0.05, 0.15]), random);
        const computed = sheet.with(values);
        if (computed.conflicts.length + computed.refused.length > 0) continue;
        computedOnes++;
        const said = JSON.stringify({ shape, inputs: sheet.inputs.map((cell, i) => [cell.id, values[i]]) });
        expect(computed.errors.slice(0, 5), said).toEqual([]);
        expect(["OK", "WARNINGS", "FAIL", "INCOMPLETE"], said).toContain(computed.overall);
      }
    }
    if (times > 1) console.log(`${id}: ${computedOnes} of ${wildShapes * wildDraws} wild draws computed`);
    expect(computedOnes).toBeGreaterThan(0);
  });
});

describe("a failing design says FAIL with figures", () => {
  it.each(ids.flatMap((id) => failing.map(([what, factors]) => [id, what, factors] as const)))(
    "%s: %s",
    (id, _what, factors) => {
      const computed = computedSheet(templateOf(id), multiplied(templateOf(id).example.inputs, factors));
      expect(computed.conflicts).toEqual([]);
      expect(computed.errors.slice(0, 5)).toEqual([]);
      expect(computed.overall).toBe("FAIL");
      const failed = computed.checks.filter(({ verdict }) => verdict === "FAIL");
      expect(failed.some(({ utilisation }) => typeof utilisation === "number" && utilisation > 1)).toBe(true);
    },
  );

  it("loads of 100 and 200 kN/m on the invented footbridge beam", () => {
    const computed = computedSheet(templates[0]!, { gs: 100, ql: 200 });
    expect(computed.errors).toEqual([]);
    expect(computed.overall).toBe("FAIL");
  });
});
