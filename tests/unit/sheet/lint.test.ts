import { describe, expect, test } from "vitest";
import { lint, expand, RefusedSheet } from "../../../src/sheet/index.ts";
import { allTemplates } from "../../../src/templates/index.ts";
import { copy, small } from "./small.ts";

type Loose = Record<string, unknown>;

/** The item or column with this id, loosely typed so that a fault can be planted. */
function find(template: ReturnType<typeof copy>, id: string): Loose {
  for (const { items } of template.blocks) {
    for (const item of items) {
      if ("table" in item) {
        if (item.table === `${id}` && !item.columns.some((column) => column.id === id)) return item as unknown as Loose;
        const column = item.columns.find((it) => it.id === id);
        if (column) return column as unknown as Loose;
      } else if ("id" in item && item.id === id) return item as unknown as Loose;
    }
  }
  throw new Error(`no ${id}`);
}
const change =
  (id: string, changes: Loose) =>
  (t: ReturnType<typeof copy>): void => {
    Object.assign(find(t, id), changes);
  };
const replace =
  (id: string, spec: Loose) =>
  (t: ReturnType<typeof copy>): void => {
    const it = find(t, id);
    for (const key of Object.keys(it)) delete it[key];
    Object.assign(it, { id, ...spec });
  };

const friction = "KERN.FRICTION_STRESS";

test("a sound template gives no message", () => {
  expect(lint(small)).toEqual([]);
});

test.each(allTemplates.map((template) => [template.id, template] as const))("the template %s lints", (_, template) => {
  expect(lint(template)).toEqual([]);
});

// One planted fault each; the message names block, item and column by number and id.
test.each<[string, (t: ReturnType<typeof copy>) => void, string]>([
  [
    "schema: an unknown key",
    change("mu", { colour: "red" }),
    "block 1 (inputs), item 2 (mu), colour: is not known here",
  ],
  [
    "schema: neither input nor formula",
    (t) => {
      delete find(t, "mu")["input"];
    },
    "block 1 (inputs), item 2 (mu): needs one of: an input, a formula, taken",
  ],
  [
    "schema: two contents of a column",
    change("x", { index: "station" }),
    "block 2 (places), item 2 (table stations), column x: needs exactly one of formula, input, taken, index, memberText, cells",
  ],
  [
    "schema: a dimension without rule",
    (t) => {
      Object.assign(t.dimensions, { odd: { label: "odd" } });
    },
    "dimensions, odd: is one of: count (with plus), size, rowsOf, within with skipFirst and skipLast, ofSource, members",
  ],
  [
    "schema: wrong type",
    change("mu", { text: 5 }),
    'block 1 (inputs), item 2 (mu), text: its type "number" is invalid',
  ],
  [
    "schema: a format that hides",
    change("uMax", { format: ";;;" }),
    "block 5 (summary), item 1 (uMax), format: holds things that exclude each other",
  ],
  [
    "an id twice",
    (t) => {
      (t.blocks[4]!.items as unknown[]).push({ id: "mu", text: "again", formula: "1" });
    },
    "block 5 (summary), item 8 (mu): the id mu stands twice",
  ],
  [
    "ids that differ in case",
    (t) => {
      (t.blocks[4]!.items as unknown[]).push({ id: "MU", text: "again", formula: "1" });
    },
    "the ids mu and MU differ only in upper and lower case",
  ],
  [
    "a block twice",
    (t) => {
      Object.assign(t.blocks[3]!, { id: "inputs" });
    },
    "the block inputs stands twice",
  ],
  ["a table twice", change("marks", { table: "between" }), "the table between stands twice"],
  [
    "an unknown id",
    change("jack", { formula: "MAX({sigma[]})" }),
    "block 3 (losses), item 6 (jack): {sigma} is not the id of any row, column or shape input present here",
  ],
  [
    "no reference at all",
    change("jack", { formula: "MAX({sigj[2]})" }),
    "block 3 (losses), item 6 (jack): {sigj[2]} is not a reference",
  ],
  [
    "dimensions that do not match",
    change("jack", { formula: "{sigj}" }),
    "block 3 (losses), item 6 (jack): {sigj} runs over tendon, which this formula does not; use {sigj[]} or another range",
  ],
  [
    "a group that is not contiguous",
    change("mean", { formula: "AVERAGE({sfr[]})" }),
    "column mean: {sfr[]} runs over tendon and station: station must come first for its cells to stand together",
  ],
  ["a single value as a column", change("jack", { formula: "MAX({mu[]})" }), "{mu} is a single value, not a column"],
  ["the row above of another table", change("ax", { formula: "{x[-1]}" }), "column ax: {x[-1]} is not in this table"],
  [
    "a range over two tables",
    change("ecc", { formula: "KERN.TENDON_ECCENTRICITY({cpx:sigj[]},{x})" }),
    "{cpx:sigj}: sigj is not a column of the same table",
  ],
  [
    "a whole where only a part is",
    change("m", { formula: "{bm}" }),
    "column m: {bm} runs over inner only, which has no match for every member here",
  ],
  [
    "a row the shape leaves out",
    change("jack", { formula: "MAX({sigj[]},{liftFactor}*{sigj[first]})" }),
    "{liftFactor} is not the id of any row, column or shape input present here (with lifted = NO)",
  ],
  [
    "an unknown function",
    change("sRef", { formula: "KERN.FRICTION({jack})" }),
    "block 3 (losses), item 5 (sRef): there is no function KERN.FRICTION",
  ],
  [
    "too few arguments",
    change("sRef", { formula: `${friction}({turn},{mu})` }),
    `${friction} takes 6 arguments; 2 are given`,
  ],
  [
    "a missing argument",
    change("sRef", { formula: `${friction}({turn},,{k},"rad/m",{jack},{ref})` }),
    "argument 2 of KERN.FRICTION_STRESS (friction coefficient between tendon and duct) is missing",
  ],
  [
    "an argument that the choice does not use",
    replace("sRef", {
      quantity: "moment",
      formula: 'KERN.MOMENT_UNIFORM({L},20,{ref},"ENDS",{ref})',
    }),
    "is not used with supports ENDS; leave it blank",
  ],
  [
    "the unit of an argument",
    change("sRef", { formula: `${friction}({turn},{mu},{k},"rad/m",{jack},{turn})` }),
    "is in m; turn is in rad",
  ],
  [
    "the unit of a sum in an argument",
    change("sRef", { formula: `${friction}({turn}+{L},{mu},{k},"rad/m",{jack},{ref})` }),
    "is in rad; L is in m",
  ],
  [
    "the unit of a result",
    change("sRef", { quantity: "distanceFromJack" }),
    `the result of ${friction} is in MPa; sRef is in m`,
  ],
  [
    "the unit of a sum",
    change("jack", { formula: "MAX({sigj[]})+{L}" }),
    "it adds or compares L, which is in m, in MPa",
  ],
  ["the unit of a repeated row", change("ref", { formula: "{jack}" }), "it repeats jack, which is in MPa, in m"],
  ["the sort of an argument", replace("k", { quantity: "wobblePerLength", input: {} }), "is in rad/m; k is in 1/m"],
  [
    "the sort of an argument in the same unit",
    (t) => {
      replace("jack", { quantity: "concreteMeanStrength", formula: "MAX({sigj[]})" })(t);
      replace("sRef", {
        quantity: "concreteTensileStrength",
        formula: "KERN.CONCRETE_TENSILE_STRENGTH_EN1992_2004({jack})",
      })(t);
    },
    "is a characteristic cylinder strength; jack is a mean cylinder strength",
  ],
  [
    "no sort where one is asked",
    replace("sRef", {
      quantity: "concreteTensileStrength",
      formula: "KERN.CONCRETE_TENSILE_STRENGTH_EN1992_2004({jack})",
    }),
    "is a characteristic cylinder strength; jack does not say that it is",
  ],
  [
    "choices the function does not know",
    (t) => {
      replace("sRef", { quantity: "concreteModulus", formula: "KERN.CONCRETE_MODULUS_EN1992_2004({jack},{cement})" })(
        t,
      );
    },
    "is one of QUARTZITE, LIMESTONE, SANDSTONE, BASALT; cement can be S, N",
  ],
  [
    "a number where a choice is asked",
    replace("sRef", { quantity: "concreteModulus", formula: "KERN.CONCRETE_MODULUS_EN1992_2004({jack},{mu})" }),
    "is a choice; mu is not a row of choices",
  ],
  [
    "too few columns of a range",
    change("ecc", { formula: "KERN.TENDON_ECCENTRICITY({cpx:cpe[]},{x})" }),
    "is a range of 3 columns",
  ],
  ["the unit of a column of a range", change("cpe", { quantity: "controlX" }), "is in mm; cpe is in m"],
  [
    "a cell where a range is asked",
    change("ecc", { formula: "KERN.TENDON_ECCENTRICITY({sigj},{x})" }),
    "is a range; {sigj[]} or {sigj[*]} is needed",
  ],
  [
    "a range where a value is asked",
    change("sRef", { formula: `${friction}({turn},{mu},{k},"rad/m",{sigj[]},{ref})` }),
    "is one value; {sigj[…]} is a range",
  ],
  [
    "a native function not allowed",
    change("jack", { formula: "MAX(FILTER({sigj[]},{sigj[]}>0))" }),
    "FILTER is not among the functions templates may use",
  ],
  [
    "a number typed in",
    change("px", { formula: "{L}*0.5" }),
    "block 2 (places), item 1 (table places), column px: the number 0.5 is typed into the formula; give it a row of its own",
  ],
  ["a per cent sign", change("px", { formula: "{L}*1%" }), "the operator % is not used in templates"],
  ["an address", change("jack", { formula: "MAX(A1:A3)" }), "A1:A3 is an address or a name"],
  ["brackets", change("jack", { formula: "MAX({sigj[]}" }), "its brackets do not match"],
  [
    "a reference inside a text",
    change("overall", { formula: '"{mu}"' }),
    "a reference stands inside a text or touches another name",
  ],
  [
    "a circle",
    (t) => {
      change("jack", { formula: "{sRef}" })(t);
    },
    "circle: block 3 (losses), item 5 (sRef) [H",
  ],
  [
    "a circle through a column",
    change("theta", { formula: "SUM({theta[]})" }),
    "circle: block 3 (losses), item 1 (table along), column theta",
  ],
  [
    "an unknown quantity",
    change("mu", { quantity: "frictionFactor" }),
    "block 1 (inputs), item 2 (mu): there is no quantity frictionFactor",
  ],
  ["a unit against its quantity", change("mu", { unit: "m" }), "the unit of frictionCoefficient is 1/rad, not m"],
  [
    "a default out of bounds",
    change("mu", { input: { default: 3 } }),
    "block 1 (inputs), item 2 (mu): its default = 3 1/rad is above 1; allowed: 0 to 1 1/rad",
  ],
  [
    "a default that is no choice",
    change("cement", { input: { default: "R", choices: [{ value: "S", text: "slow" }] } }),
    "its default = “R” is not one of the choices",
  ],
  [
    "a shape default out of bounds",
    (t) => {
      Object.assign(t.shape[0]!, { default: 7 });
    },
    "shape input tendons: its default 7 is not a whole number from 1 to 4",
  ],
  ["a condition on no shape input", change("mu", { when: { mood: "good" } }), "when: mood is not a shape input"],
  [
    "a condition that never holds",
    change("jack", { when: { lifted: "PERHAPS" } }),
    "when: PERHAPS is not a choice of lifted",
  ],
  [
    "a dimension that counts nothing",
    (t) => {
      Object.assign(t.dimensions, { odd: { label: "odd", count: "lifted" } });
    },
    "dimension odd: lifted is not a shape input that is a number",
  ],
  [
    "a dimension that counts itself",
    (t) => {
      Object.assign(t.dimensions, { interval: { label: "mark", rowsOf: "places" } });
    },
    "its number of members depends on itself",
  ],
  [
    "a table without rows",
    (t) => {
      Object.assign(t.shape[2]!, { min: 1 });
    },
    "item 4 (table between): has no rows (with",
  ],
  [
    "cells of no member",
    change("factor", { cells: { transfer: 1, lifting: 1, service: 1, later: 1 } }),
    "column factor: cells: later is not a member of stage",
  ],
  [
    "a member without cell",
    change("factor", { cells: { transfer: 1, service: 1 } }),
    "column factor: cells says nothing for lifting",
  ],
  [
    "an index that is not there",
    change("vn", { index: "tendon" }),
    "column vn: tendon is not a dimension of these rows",
  ],
  [
    "columns left to people beside others",
    (t) => {
      const m = find(t, "m");
      delete m["formula"];
      m["record"] = true;
    },
    "item 3 (table marks): has columns left to people beside others; a table has such columns only, or none",
  ],
  [
    "a formula that reads what people write",
    (t) => {
      const m = find(t, "m");
      delete m["formula"];
      m["record"] = true;
    },
    "column bm: m is left to what people write; no formula reads it",
  ],
  [
    "warnings of no function",
    change("theta", { warnAt: "last" }),
    "column theta: warnAt needs a formula with exactly one function call",
  ],
  ["two verdict columns", change("vs", { verdict: true }), "has more than one verdict column"],
  [
    "no overall verdict",
    (t) => {
      delete find(t, "overall")["overall"];
    },
    "template: needs one row with the overall verdict; it has 0",
  ],
  [
    "a chart of no column",
    (t) => {
      Object.assign(t.charts[0]!.series[0]!, { column: "nope" });
    },
    "chart tendons: nope is not a table column present here",
  ],
  [
    "a chart whose axis does not fit",
    (t) => {
      Object.assign(t.charts[1]!.x, { column: "bm" });
    },
    "chart mean: series mean: bm does not run over the same members",
  ],
  [
    "a chart of no member",
    (t) => {
      Object.assign(t.charts[2]!.series[0]!, { member: "never" });
    },
    "chart service: there is no member never",
  ],
  [
    "a chart in no block",
    (t) => {
      Object.assign(t.charts[0]!, { block: "nowhere" });
    },
    "chart tendons: there is no block nowhere",
  ],
  [
    "an example out of range",
    (t) => {
      Object.assign(t.example.inputs, { k: 7 });
    },
    "is above 0.1; allowed: 0 to 0.1 rad/m (with the example)",
  ],
])("a planted fault is named: %s", (_, plant, message) => {
  const template = copy();
  plant(template);
  const problems = lint(template);
  expect(
    problems.filter((problem) => problem.includes(message)),
    problems.join("\n"),
  ).not.toEqual([]);
});

describe("expand refuses what does not lint", () => {
  test("with every message", () => {
    const template = copy();
    change("jack", { formula: "MAX({sigma[]})" })(template);
    change("px", { formula: "{L}*0.5" })(template);
    expect(() => expand(template)).toThrow(RefusedSheet);
    expect(() => expand(template)).toThrow(/sigma[\s\S]*0\.5|0\.5[\s\S]*sigma/);
  });
  test("and what is no template", () => {
    expect(() => expand({} as never)).toThrow(/required property/);
  });
});
