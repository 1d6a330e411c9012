import { describe, expect, test } from "vitest";
import { columns, expand, type Inputs } from "../../src/sheet/index.ts";
import { templates } from "../../src/templates/index.ts";
import { valuesOf } from "./builtSheet.ts";
import { profile } from "./profile.ts";

/** One tendon and no extras: few cells to compute. */
const small: Inputs = {
  lifted: "NO",
  tendons: 1,
  tendonName: ["all"],
  strands: [17],
  duct: [110],
  sigj: [1400],
  end: ["LEFT"],
  order: [1],
  ...profile({
    cpx: [[0, 12, 24]],
    cpe: [[0, 520, 0]],
    cps: [["TO_LEVEL", "FROM_LEVEL", "LINE"]],
  }),
  zt: [0],
  Rlim: [6],
};
/** The statuses of inputs by id, and the list of warnings, of a sheet with these inputs. */
function said(id: string, base: Inputs, changes: Inputs) {
  const template = templates.find((one) => one.id === id)!;
  const { inputs } = template.example;
  // Inputs of shapes that the small sheet has not are left out by their own `when`.
  const plan = expand(template, { ...inputs, ...base, ...changes });
  const values = valuesOf(plan);
  const status = (input: string, below = 0): unknown => {
    const { at } = plan.meanings.find((meaning) => meaning.id === input)!;
    return values[at.row + below]![columns.verdict]!.value;
  };
  const { row, rows, column } = plan.summary.warnings;
  const warnings = Array.from({ length: rows }, (_, i) => values[row + i]![column]!.text.trim()).filter(Boolean);
  return { status, warnings };
}

describe("values in a neighbouring unit that were allowed without a word", () => {
  const wrong: Inputs = { rho1000: 0.025, tRelax: 57, tEnd: 57, RH: 0.7 };
  // Loads early enough for 57 days to come after them; with those of the example that end of service is refused.
  const early: Inputs = { tg: 20, tq: 40 };

  test("are marked at the input and stand in the list of warnings", () => {
    const { status, warnings } = said("post-tensioned-en1992-2004", small, { ...early, ...wrong });
    for (const id of Object.keys(wrong)) expect(status(id), id).toBe("UNUSUAL");
    const text = warnings.join("\n");
    expect(text).toMatch(
      /ρ1000 .* = 0\.025 % is outside the everyday range 0 or 1 to 12 %\. A value in parts of 1, not per cent\?/,
    );
    expect(text).toMatch(/57 h is outside the everyday range 200000 to 1100000 h\. A value in years\?/);
    expect(text).toMatch(/57 days is outside the everyday range 3650 to 45000 days\. A value in years\?/);
    expect(text).toMatch(/0\.7 % is outside the everyday range 30 to 95 %\. A value in parts of 1, not per cent\?/);
  });

  test("of a table are named by their row", () => {
    const { status, warnings } = said("post-tensioned-en1992-2004", small, { cpy: [[0, 0.52, 0]] });
    expect([status("cpy"), status("cpy", 1), status("cpy", 2)]).toEqual(["filled in", "UNUSUAL", "filled in"]);
    expect(warnings.join("\n")).toMatch(
      /y \(.*\) in row 2 = 0\.52 mm is outside the everyday range .*\. A value in m\?/,
    );
  });

  test("a strength that the concrete does not have by the age of release is warned of", () => {
    const { warnings } = said("pre-tensioned-en1992-2004", { lifted: "NO", curing: "NORMAL" }, {});
    expect(warnings.join("\n")).toMatch(
      /30 MPa is required, but only about 14\.5 MPa can be expected at an age of 1 day/,
    );
  });

  test("usual values say nothing", () => {
    const { status, warnings } = said("post-tensioned-en1992-2004", small, {});
    // Defaults of the template, told from what was entered.
    for (const id of ["tRelax", "tEnd", "RH"]) expect(status(id), id).toBe("default");
    expect(status("L")).toBe("filled in");
    expect(status("rho1000")).toBe("left empty");
    expect(warnings).toEqual([]);
  });
});
