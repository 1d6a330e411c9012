import { describe, expect, it } from "vitest";
import {
  register,
  worksheetFunctions,
  type CustomFunctionsHost,
  type WorksheetFunction,
} from "../../../functions/index.ts";

class HostError extends Error {
  constructor(
    readonly code: string,
    readonly given?: string,
  ) {
    super(given);
  }
}

/** A stand-in for the host's own object: keeps what it is given, calls it as the host does, with an invocation object last. */
function registered(functions?: readonly WorksheetFunction[]) {
  const kept = new Map<string, (...args: unknown[]) => unknown>();
  const host = { associate: (id: string, run: (...args: unknown[]) => unknown) => kept.set(id, run) };
  register(host as unknown as CustomFunctionsHost, functions);
  // The host's script has no more than `associate` when the page registers; the rest is put beside it later.
  Object.assign(host, { Error: HostError, ErrorCode: { invalidValue: "#VALUE!", invalidNumber: "#NUM!" } });
  const call = (id: string, ...args: unknown[]): unknown => {
    try {
      return kept.get(id)!(...args, { address: "Sheet1!A1" });
    } catch (error) {
      return error;
    }
  };
  return { kept, call };
}
const stub = (result: ReturnType<WorksheetFunction["call"]>): WorksheetFunction => ({
  ...worksheetFunctions.find(({ id }) => id === "FRICTION_STRESS")!,
  call: () => result,
});

describe("registration", () => {
  const { kept, call } = registered();

  it("associates every function", () => {
    expect([...kept.keys()]).toEqual(worksheetFunctions.map(({ id }) => id));
  });

  it("hands the arguments over without the host's invocation object", () => {
    expect(call("FRICTION_STRESS", 0.3, 0.2, 0.003, "1/m", 1395, 12)).toBeCloseTo(
      1395 * Math.exp(-(0.2 * 0.3 + 0.003 * 12)),
      10,
    );
  });

  it("hands repeating arguments, which the host gives as one array, over one after another", () => {
    expect(call("WARNINGS", "FRICTION_STRESS", [[[0.3]], [[0.2]], [[0.003]], [["1/m"]], [[100]], [[12]]])).toMatch(
      /100 MPa is outside/,
    );
    expect(call("WARNINGS", "FRICTION_STRESS", [])).toMatch(/is missing/);
  });

  it("turns a refusal into the host's value error with its text", () => {
    expect(call("FRICTION_STRESS", 0.3, -0.1, 0.003, "1/m", 1395, 12)).toMatchObject({
      code: "#VALUE!",
      given: expect.stringMatching(/^μ .*is below 0/) as string,
    });
    expect(call("FRICTION_STRESS", 0.3, null, 0.003, "1/m", 1395, 12)).toMatchObject({
      code: "#VALUE!",
      given: expect.stringMatching(/is missing/) as string,
    });
  });

  it("gives the number error without a text, which it cannot carry", () => {
    const { call: of } = registered([stub({ error: { code: "#NUM!", message: "no answer" } })]);
    expect(of("FRICTION_STRESS")).toMatchObject({ code: "#NUM!", given: undefined });
  });
});
