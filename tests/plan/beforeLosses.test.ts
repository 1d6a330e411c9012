/** Loads may act right after transfer, upward ones too: service stages with the force before time-dependent losses. */
import { describe, expect, test } from "vitest";
import type { Inputs } from "../../src/sheet/index.ts";
import { templates } from "../../src/templates/index.ts";
import { computedSheet, type Computation } from "../draws/sheet.ts";
import { alderQuay } from "../independent/alderQuay.ts";
import { beam } from "../independent/postTensionedBeam.ts";

const sheet = (id: string, set: Inputs): Computation =>
  computedSheet(
    templates.find((one) => one.id === id)!,
    set,
  );
const numbers = (computed: Computation, id: string) => computed.valuesOf(id).map(Number);

/** The stresses of one stage at midspan. */
function atMidspan(computed: Computation, id: string, stage: string): number {
  const stations = numbers(computed, "x");
  const place = stations.findIndex((x) => Math.abs(x - stations.at(-1)! / 2) < 1e-9);
  return numbers(computed, id)[computed.valuesOf("stageText").indexOf(stage) * stations.length + place]!;
}

describe("upward load before time-dependent losses", () => {
  // From the inputs alone, with r_sup·P_0, by a computation outside the project: −3.910 MPa at the top.
  const own = -3.91;

  test("post-tensioned, uniform: fails where the force after losses would pass", () => {
    const expected = beam({ ...alderQuay, gs: 0, q: -9.5 });
    const mid = expected.rows.findIndex(({ x }) => x === 12_000);
    const at = (name: string) => expected.stages.find((stage) => stage.name === name)!.at[mid]!;
    expect(at("characteristic, before losses").min).toBeCloseTo(own, 2);
    expect(at("characteristic, before losses").ok).toBe(false);
    expect(at("characteristic").min).toBeCloseTo(-3.149, 2);

    const computed = sheet("post-tensioned-en1992-2004", { gs: 0, ql: -9.5 });
    expect(atMidspan(computed, "vmin", "Characteristic, before losses")).toBeCloseTo(own, 2);
    expect(numbers(computed, "vmin")).toHaveLength(expected.stages.flatMap((s) => s.at).length);
    expected.stages
      .flatMap((s) => s.at)
      .forEach(({ min }, i) => expect(numbers(computed, "vmin")[i]!).toBeCloseTo(min, 9));
    expect(computed.check("uTension")).toMatchObject({
      verdict: "FAIL",
      where: "Char. early, x = 12.00 m",
    });
    expect(computed.overall).toBe("FAIL");
  });

  test("post-tensioned, the same moment by a point load", () => {
    const computed = sheet("post-tensioned-en1992-2004", { loads: "FURTHER", gs: 0, ql: 0, plX: [12], plQ: [-114] });
    expect(atMidspan(computed, "vmin", "Characteristic, before losses")).toBeCloseTo(own, 2);
    expect(computed.overall).toBe("FAIL");
  });

  test("to IS 1343: 17.2 MPa at the soffit with the force before losses, 13.3 after, 14.67 allowed", () => {
    const computed = sheet("post-tensioned-is1343-1980", { loads: "FURTHER", gs: 0, ql: 0, plX: [12], plQ: [-48] });
    expect(atMidspan(computed, "vmax", "Service, before losses")).toBeCloseTo(17.2, 1);
    expect(atMidspan(computed, "vmax", "Service")).toBeCloseTo(13.3, 1);
    expect(computed.check("uCompression")).toMatchObject({ verdict: "FAIL" });
    expect(computed.overall).toBe("FAIL");
  });

  test.each(["pre-tensioned-en1992-2004", "pre-tensioned-is1343-1980"])("%s", (id) => {
    // Superposition, stage by stage: the prestress before losses with the later stage's loads.
    const computed = sheet(id, { gs: 0, ql: -4 });
    const early = id.includes("is1343") ? "Service, before losses" : "Characteristic, before losses";
    const late = id.includes("is1343") ? "Service" : "Characteristic";
    const stations = numbers(computed, "x");
    const mid = stations.findIndex((x) => Math.abs(x - stations.at(-1)! / 2) < 1e-9);
    for (const [prestress, stress] of [
      ["ft0", "vtop"],
      ["fb0", "vbot"],
    ] as const) {
      const loads = prestress === "ft0" ? "vmt" : "vmb";
      expect(atMidspan(computed, stress, early)).toBeCloseTo(
        numbers(computed, prestress)[mid]! + atMidspan(computed, loads, late),
        9,
      );
    }
    expect(atMidspan(computed, "vmin", early)).toBeLessThan(atMidspan(computed, "vmin", late));
  });
});
