import { all, create } from "mathjs/number";
import temml from "temml";
import { describe, expect, it } from "vitest";
import { formulas, type Formula } from "../../../src/core/index.ts";
import { readFormula } from "../../../taskpane/trace/calls.ts";
import { equationTex, numberTex, substitutionTex, symbolTex } from "../../../src/typeset/index.ts";
import { inspect, traceCall } from "../../../taskpane/trace/inspect.ts";
import { placeOf } from "../../../src/checker/index.ts";
import { evaluateSteps, UnboundName } from "../../../src/checker/trace/secondEvaluation.ts";
import { FakeHost } from "./fakeHost.ts";

const math = create(all!);

describe("reading a cell's formula", () => {
  it("finds the call and its arguments as written", () => {
    const { calls, references } = readFormula('=KERN.FRICTION_STRESS($D$5,kb_mu,-0.3,,A1*2)');
    expect(calls).toEqual([{
      id: "FRICTION_STRESS", text: "KERN.FRICTION_STRESS($D$5,kb_mu,-0.3,,A1*2)", depth: 0, whole: true,
      arguments: [
        { kind: "reference", text: "$D$5", named: false }, { kind: "reference", text: "kb_mu", named: true },
        { kind: "literal", text: "-0.3", value: -0.3 }, { kind: "missing", text: "" }, { kind: "expression", text: "A1*2" },
      ],
    }]);
    expect(references.map((r) => r.text)).toEqual(["$D$5", "kb_mu", "A1"]);
  });

  it("lists nested calls from the outside in, and says which is the whole formula", () => {
    const { calls } = readFormula("=IF(A1>0,KERN.TENDON_FORCE(KERN.FRICTION_STRESS(1,2,3,4,5),B2),0)");
    expect(calls.map(({ id, depth, whole }) => [id, depth, whole])).toEqual([["TENDON_FORCE", 0, false], ["FRICTION_STRESS", 1, false]]);
  });

  it("reads the name as the file format stores it", () => {
    expect(readFormula("=_xldudf_KERN_FRICTION_STRESS(A1,A2,A3,A4,A5)").calls[0]!.id).toBe("FRICTION_STRESS");
  });

  it("does not take variables of LET for names of the workbook", () => {
    expect(readFormula("=LET(a,B1,a+C1)").references.map((r) => r.text)).toEqual(["B1", "C1"]);
  });

  it("refuses what is no formula", () => {
    expect(() => readFormula("=SUM(")).toThrow();
  });

  it("places addresses, with sheet and block, and no names", () => {
    expect(placeOf("'My beam'!$B$2:$C$4", "X")).toEqual({ sheet: "My beam", row: 1, column: 1, rows: 3, columns: 2 });
    expect(placeOf("kb_mu", "X")).toBeUndefined();
  });
});

describe("typesetting", () => {
  it.each([["σ_p0", "{\\sigma}_{\\mathrm{p0}}"], ["k", "k"], ["f_ck,t", "{f}_{\\mathrm{ck}{,}\\mathrm{t}}"], ["RH", "\\mathrm{RH}"], ["β_c(t,t_0)", "{\\beta}_{\\mathrm{c}}(t{,}{t}_{0})"], ["Δσ_el", "{\\Delta \\sigma}_{\\mathrm{el}}"]])("%s", (symbol, tex) => {
    expect(symbolTex(symbol)).toBe(tex);
  });

  it("brackets negative numbers and powers of ten where they are put in", () => {
    expect(numberTex(-2.5, true)).toBe("\\left(-2.5\\right)");
    expect(numberTex(1.25e-7)).toBe("1.25\\times 10^{-7}");
  });

  it.each(formulas.map((f) => [f.id, f] as const))("sets every equation and symbol of %s", (_, f) => {
    for (const [name, step] of Object.entries(f.steps)) {
      const tex = equationTex(math, f, name);
      if ("lookup" in step) continue;
      expect(temml.renderToString(tex, { throwOnError: true })).toContain("<math");
      if ("equation" in step) {
        const ones = Object.fromEntries([...Object.keys(f.params), ...Object.keys(f.steps)].map((n) => [n, -1.5e-9]));
        expect(temml.renderToString(substitutionTex(math, f, name, ones), { throwOnError: true })).toContain("10");
      }
    }
    for (const { symbol } of [...Object.values(f.params), ...Object.values(f.steps)]) expect(() => temml.renderToString(symbolTex(symbol), { throwOnError: true })).not.toThrow();
  });
});

describe("second evaluation", () => {
  const sample = (equation: string): Formula => ({
    id: "SAMPLE", family: "stress", summary: "sample", source: { key: "mechanics", basis: "derived" }, params: {},
    result: { kind: "number", key: "sample", symbol: "s", text: "sample", unit: "–" }, steps: { s: { symbol: "s", unit: "–", equation } },
    stepwise: () => ({ s: 0 }), compute: () => 0,
  });

  it("evaluates friction as the reader of the equation would", () => {
    const f = formulas.find((x) => x.id === "FRICTION_STRESS")!;
    const value = evaluateSteps(math, f, { sigma0: 1395, mu: 0.2, alpha: 0.3, k: 0.003e-3, x: 12000 })["result"]!;
    // 1395·e^−(0.06 + 0.036), by hand calculator.
    expect(value).toBeCloseTo(1267.307, 3);
  });

  it.each(["E * 2", "tau + 1", "h", "2 * phi", "i"])("refuses the unbound name in “%s”, although the library knows one", (equation) => {
    expect(() => evaluateSteps(math, sample(equation), {})).toThrow(UnboundName);
  });

  it("refuses functions it does not know", () => {
    expect(() => evaluateSteps(math, sample("random(1, 2)"), {})).toThrow(UnboundName);
  });

  it("takes conditional expressions", () => {
    expect(evaluateSteps(math, sample("a <= 35 ? 1 : 2"), { a: 40 })).toEqual({ s: 2 });
  });

  it.each(formulas.map((f) => [f.id, f] as const))("finds every name of %s bound", (_, f) => {
    const values = Object.fromEntries(Object.entries(f.params).map(([name, p]) => [name, p.kind === "number" ? p.default ?? p.typical?.[0] ?? p.min ?? p.max ?? 1 : p.kind === "choice" ? p.values[0]!.value : []]));
    const steps = { ...f, stepwise: () => Object.fromEntries(Object.keys(f.steps).map((n) => [n, 1])) } as Formula;
    // Values mean nothing here; only an unbound name must not occur. Equality with `compute` is tested on random inputs elsewhere.
    expect(Object.keys(evaluateSteps(math, steps, values))).toEqual(Object.keys(f.steps));
  });
});

describe("tracing a cell", () => {
  const host = (): FakeHost => {
    const h = new FakeHost();
    h.put("Beam", 0, 0, { value: 1395 });
    h.put("Beam", 1, 0, { value: 0.2 });
    h.put("Beam", 2, 0, { value: 12 });
    h.put("Beam", 4, 0, { value: 1267.3073024158452, formula: "=KERN.FRICTION_STRESS(A1,kb_mu,0.3,0.003,A3)" });
    h.names.set("kb_mu", "Beam!$A$2");
    return h;
  };

  it("follows arguments to their cells and names", async () => {
    const h = host();
    const at = await inspect(h, { sheet: "Beam", row: 4, column: 0 });
    const { trace, arguments: given } = await traceCall(h, at.read!.calls[0]!, at);
    expect(given.map((g) => [g.origin?.address, g.value])).toEqual([["A1", 1395], ["A2", 0.2], [undefined, 0.3], [undefined, 0.003], ["A3", 12]]);
    expect(trace!.result).toBeCloseTo(1267.307, 3);
  });

  it("says which argument is refused and why", async () => {
    const h = host();
    h.put("Beam", 1, 0, { value: -0.1 });
    const at = await inspect(h, { sheet: "Beam", row: 4, column: 0 });
    const { trace, refused } = await traceCall(h, at.read!.calls[0]!, at);
    expect(trace).toBeUndefined();
    expect(refused).toMatchObject({ parameter: "mu", message: expect.stringMatching(/−0\.1.*below 0/) as unknown });
  });

  it("has an expression evaluated by the host", async () => {
    const h = host();
    h.put("Beam", 4, 0, { value: 1, formula: "=KERN.FRICTION_STRESS(A1,A2,0.3/2,0.003,A3)" });
    h.evaluations.set("=0.3/2", { value: 0.15, text: "0.15" });
    const at = await inspect(h, { sheet: "Beam", row: 4, column: 0 });
    expect((await traceCall(h, at.read!.calls[0]!, at)).arguments[2]!.value).toBe(0.15);
  });

  it("shows an argument's own error instead of a calculation", async () => {
    const h = host();
    h.put("Beam", 2, 0, { value: null, error: { code: "#DIV/0!" } });
    const at = await inspect(h, { sheet: "Beam", row: 4, column: 0 });
    expect((await traceCall(h, at.read!.calls[0]!, at)).refused).toMatchObject({ parameter: "x" });
  });

  it("lists what a plain formula refers to", async () => {
    const h = host();
    h.put("Beam", 5, 0, { value: 1407, formula: "=A1+$A$3" });
    const at = await inspect(h, { sheet: "Beam", row: 5, column: 0 });
    expect(at.precedents.map((p) => [p.address, p.contents[0]![0]!.value])).toEqual([["A1", 1395], ["A3", 12]]);
  });
});
