import { expect, test } from "vitest";
import { expand, RefusedSheet, type Inputs } from "../../../src/sheet/index.ts";
import { small } from "./small.ts";

function refusal(inputs: Inputs): readonly string[] {
  try {
    expand(small, { ...small.example.inputs, ...inputs });
  } catch (error) {
    if (error instanceof RefusedSheet) return error.problems;
    throw error;
  }
  return [];
}

test.each<[string, Inputs, string]>([
  [
    "below",
    { mu: -0.1 },
    "input mu (μ, friction coefficient between tendon and duct) = −0.1 1/rad is below 0; allowed: 0 to 1 1/rad",
  ],
  ["above", { turn: 1.5 }, "input turn (α, angle change an interval) = 1.5 rad is above 1; allowed: 0 to 1 rad"],
  [
    "on an excluded bound",
    { limit: 0 },
    "input limit (σlim, limit from your copy) = 0 MPa is not above 0; allowed: above 0 and below 3000 MPa",
  ],
  [
    "a text for a number",
    { k: "0.007" },
    "input k (k, unintended angle per metre, multiplied by μ) = “0.007” is not a number; a number in rad/m is needed",
  ],
  [
    "no choice",
    { cement: "X" },
    "input cement (class, cement class) = “X” is not one of the choices; allowed: S (slow), N (normal)",
  ],
  [
    "a text with a character nobody sees",
    { project: "Alder\tQuay" },
    "input project (project) = “Alder�Quay” holds a tab, a line end or another character that can't be seen; type it again without",
  ],
  [
    "a text longer than its line",
    { project: "x".repeat(256) },
    `input project (project) = “${"x".repeat(39)}…” has 256 characters; at most 255 are allowed`,
  ],
  ["unknown", { nu: 1 }, "input nu is not an input of the template small"],
  [
    "a list for one value",
    { mu: [0.2, 0.2] },
    "input mu (μ, friction coefficient between tendon and duct) is a list; one value is needed",
  ],
  [
    "one value for a list",
    { sigj: 1400 },
    "input sigj (σp0, tendon stress at the jack) = 1400 MPa is a single value; a list over tendon is needed",
  ],
  [
    "a list too long",
    { sigj: [1, 2, 3] },
    "input sigj (σp0, tendon stress at the jack) lists 3 values over tendon; allowed: at most 2",
  ],
  [
    "inside a list",
    { sigj: [1400, 9999] },
    "input sigj (σp0, tendon stress at the jack), tendon 2 = 9999 MPa is above 2500; allowed: above 0 and at most 2500 MPa",
  ],
  ["shape not whole", { tendons: 2.5 }, "input tendons (nt, tendons) = 2.5 is not a whole number; allowed: 1 to 4"],
  ["shape out of range", { tendons: 9 }, "input tendons (nt, tendons) = 9 is above 4; allowed: 1 to 4"],
  [
    "shape no choice",
    { lifted: "MAYBE" },
    "input lifted (lift, lifted) = “MAYBE” is not one of the choices; allowed: YES (lifted), NO (in place)",
  ],
])("refused: %s", (_, inputs, message) => {
  expect(refusal(inputs)).toContain(message);
});

test("every message at once", () => {
  expect(refusal({ mu: -1, k: "x", nu: 1 })).toHaveLength(3);
});

test("what is left out stays empty or takes its default", () => {
  const plan = expand(small, { tendons: 1 });
  expect(plan.inputs).toMatchObject({ k: null, mu: 0.2, sigj: [1400], cpx: [[null, null, null]] });
});

test("an input of a row left out by the shape is no fault", () => {
  expect(refusal({ lifted: "NO", liftFactor: 1 })).toEqual([]);
});
