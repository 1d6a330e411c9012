import { describe, expect, it } from "vitest";
import { choosing } from "../../../src/core/choosing.ts";
import { cautions, formulas, q, run, type Formula } from "../../../src/core/index.ts";
import { choice } from "../../../src/core/parameters.ts";

const named = (id: string): Formula => formulas.find((f) => f.id === id)!;
/** Two ways of friction with the same arguments and the same result, and a function of another result. */
const whole = named("FRICTION_STRESS");
const first = { ...named("FRICTION_STRESS_LINEAR"), result: whole.result };
const weight = named("SELF_WEIGHT");
const form = choice({
  key: "formOfFriction",
  symbol: "form",
  text: "form of the law",
  values: [
    { value: "WHOLE", text: "exponential" },
    { value: "FIRST", text: "first order" },
  ],
});
const said = { id: "EITHER", family: "friction", summary: "either form" } as const;
const order = ["form", ...Object.keys(whole.params)];

describe("formulas of one kind under one name", () => {
  const either = choosing({ ...said, by: { form }, as: { WHOLE: whole, FIRST: first }, order });

  it("compute what the choice asks for, and give what all of them give", () => {
    // μα + kx = 0.06 + 0.036: 1395·e^−0.096 and 1395·(1 − 0.096).
    const args = [0.3, 0.2, 0.003, "1/m", 1395, 12] as const;
    expect(run(either, ["WHOLE", ...args])).toBeCloseTo(1395 * Math.exp(-0.096), 9);
    expect(run(either, ["FIRST", ...args])).toBeCloseTo(1395 * 0.904, 9);
    expect(either.result).toBe(whole.result);
  });

  it("say the notes of all, and every caution of any of them", () => {
    const cautious = { ...first, notes: ["of one alone", cautions.competence] };
    const { notes } = choosing({
      ...said,
      notes: ["its own"],
      by: { form },
      as: { WHOLE: { ...whole, notes: ["of one"] }, FIRST: cautious },
      order,
    });
    expect(notes).toEqual(["its own", cautions.competence]);
  });

  it("need a quantity for all where they give different ones", () => {
    const both = { by: { form }, as: { WHOLE: whole, FIRST: { ...first, result: weight.result } }, order };
    expect(() => choosing({ ...said, ...both })).toThrow("give different quantities");
    expect(choosing({ ...said, ...both, result: q.moment }).result).toBe(q.moment);
  });

  it("are refused where the choices are others, or an argument has no place", () => {
    expect(() => choosing({ ...said, by: { form }, as: { WHOLE: whole }, order })).toThrow(
      "EITHER: the choices are WHOLE,FIRST, the formulas WHOLE",
    );
    expect(() =>
      choosing({ ...said, by: { form }, as: { WHOLE: whole, FIRST: first }, order: order.slice(0, -1) }),
    ).toThrow("x of WHOLE has no place among the arguments");
  });
});
