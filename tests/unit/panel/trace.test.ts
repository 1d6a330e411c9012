import { all, create } from "mathjs/number";
import temml from "temml";
import { describe, expect, it } from "vitest";
import { formulas, variantsOf, type Formula } from "../../../src/core/index.ts";
import { equationTex, numberTex, substitutionTex, symbolTex } from "../../../src/typeset/index.ts";
import { evaluateSteps, UnboundName } from "../../../src/checker/trace/secondEvaluation.ts";

const math = create(all!);

describe("typesetting", () => {
  it.each([
    ["σ_p0", "{\\sigma}_{\\mathrm{p0}}"],
    ["k", "k"],
    ["f_ck,t", "{f}_{\\mathrm{ck}{,}\\mathrm{t}}"],
    ["RH", "\\mathrm{RH}"],
    ["β_c(t,t_0)", "{\\beta}_{\\mathrm{c}}(t{,}{t}_{0})"],
    ["Δσ_el", "{\\Delta \\sigma}_{\\mathrm{el}}"],
  ])("%s", (symbol, tex) => {
    expect(symbolTex(symbol)).toBe(tex);
  });

  it("brackets negative numbers and powers of ten where they are put in", () => {
    expect(numberTex(-2.5, true)).toBe("\\left(-2.5\\right)");
    expect(numberTex(1.25e-7)).toBe("1.25\\times 10^{-7}");
  });

  it.each(formulas.flatMap(variantsOf).map((f) => [f.id, f] as const))(
    "sets every equation and symbol of %s",
    (_, f) => {
      for (const [name, step] of Object.entries(f.steps)) {
        const tex = equationTex(math, f, name);
        if ("lookup" in step) continue;
        expect(temml.renderToString(tex, { throwOnError: true })).toContain("<math");
        if ("equation" in step) {
          const ones = Object.fromEntries([...Object.keys(f.params), ...Object.keys(f.steps)].map((n) => [n, -1.5e-9]));
          expect(temml.renderToString(substitutionTex(math, f, name, ones), { throwOnError: true })).toContain("10");
        }
      }
      for (const { symbol } of [...Object.values(f.params), ...Object.values(f.steps)])
        expect(() => temml.renderToString(symbolTex(symbol), { throwOnError: true })).not.toThrow();
    },
  );
});

describe("second evaluation", () => {
  const sample = (equation: string): Formula => ({
    id: "SAMPLE",
    family: "stress",
    summary: "sample",
    source: { key: "mechanics", basis: "derived" },
    params: {},
    result: { kind: "number", key: "sample", symbol: "s", text: "sample", unit: "–" },
    steps: { s: { symbol: "s", unit: "–", equation } },
    stepwise: () => ({ s: 0 }),
    compute: () => 0,
  });

  it("evaluates friction as the reader of the equation would", () => {
    const f = formulas.find((x) => x.id === "FRICTION_STRESS")!;
    const value = evaluateSteps(math, f, { sigma0: 1395, mu: 0.2, alpha: 0.3, k: 0.003e-3, wobble: "1/m", x: 12000 })[
      "result"
    ]!;
    // 1395·e^−(0.06 + 0.036), by hand calculator.
    expect(value).toBeCloseTo(1267.307, 3);
  });

  it.each(["E * 2", "tau + 1", "h", "2 * phi", "i"])(
    "refuses the unbound name in “%s”, although the library knows one",
    (equation) => {
      expect(() => evaluateSteps(math, sample(equation), {})).toThrow(UnboundName);
    },
  );

  it("refuses functions it does not know", () => {
    expect(() => evaluateSteps(math, sample("random(1, 2)"), {})).toThrow(UnboundName);
  });

  it("takes conditional expressions", () => {
    expect(evaluateSteps(math, sample("a <= 35 ? 1 : 2"), { a: 40 })).toEqual({ s: 2 });
  });

  it.each(formulas.map((f) => [f.id, f] as const))("finds every name of %s bound", (_, f) => {
    const values = Object.fromEntries(
      Object.entries(f.params).map(([name, p]) => [
        name,
        p.kind === "number"
          ? (p.default ?? p.typical?.[0] ?? p.min ?? p.max ?? 1)
          : p.kind === "choice"
            ? p.values[0]!.value
            : [],
      ]),
    );
    const steps = { ...f, stepwise: () => Object.fromEntries(Object.keys(f.steps).map((n) => [n, 1])) } as Formula;
    // Values mean nothing here; only an unbound name must not occur. Equality with `compute` is tested on random inputs elsewhere.
    expect(Object.keys(evaluateSteps(math, steps, values))).toEqual(Object.keys(f.steps));
  });
});
