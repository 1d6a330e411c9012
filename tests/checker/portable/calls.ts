import fc from "fast-check";
import {
  inForce,
  isRefusal,
  neighboursOf,
  run,
  type Cell,
  type Formula,
  type Parameter,
} from "../../../src/core/index.ts";
import { argumentsOf } from "../../equation/arguments.ts";

/** A call with single cells, and what the core gives. */
export interface DrawnCall {
  readonly id: string;
  readonly args: readonly Cell[];
  readonly value?: number;
  readonly message?: string;
}

export function answered(f: Formula, args: readonly Cell[]): DrawnCall {
  try {
    return { id: f.id, args, value: run(f, args) };
  } catch (error) {
    if (!isRefusal(error)) throw error;
    return { id: f.id, args, message: (error as Error).message };
  }
}

/** Values at, beside and beyond the edges of what a parameter takes, and entries of other kinds. */
function others(parameter: Parameter, value: Cell): readonly Cell[] {
  if (parameter.kind === "choice")
    return ["", "nothing of the kind", "¤".repeat(45), String(parameter.values.at(-1)!.value).toLowerCase(), 7, true];
  if (parameter.kind !== "number") return [];
  const { min, max, above, below, typical, smallest, whole } = parameter;
  const edges = [min, max, above, below, ...(typical ?? []), smallest].filter((edge) => edge !== undefined);
  const beyond = [
    ...(min !== undefined ? [min - 1, min - 1.23456789e-5] : []),
    ...(max !== undefined ? [max * 1.0000123 + 1e-5, max + 12_345_678] : []),
    ...(above !== undefined ? [above - 0.5] : []),
    ...(below !== undefined ? [below * 3 + 1] : []),
  ];
  const number = typeof value === "number" ? value : 1;
  return [
    ...edges,
    ...beyond,
    ...neighboursOf(parameter).map(({ factor }) => number * factor),
    ...(whole ? [number + 0.5] : []),
    -number,
    number * 3,
    number / 3,
    "",
    "twelve",
    true,
  ];
}

/** Calls of a formula: accepted ones, and each of their arguments changed. The same every time. */
export function callsOf(f: Formula, accepted: number, changed: number): readonly DrawnCall[] {
  const drawn = fc.sample(argumentsOf(f), { seed: 20261130, numRuns: accepted }) as readonly (readonly Cell[])[];
  const names = Object.keys(f.params);
  // Halves of the sixth digit are rounded by their last bits, which cells do not show.
  const short = drawn.map((args) => args.map((arg) => (typeof arg === "number" ? Number(arg.toPrecision(5)) : arg)));
  const out = drawn.map((args) => answered(f, args));
  const changes = names.flatMap((name, i) => {
    const base = short[i % short.length]!;
    const values = Object.fromEntries(names.map((one, j) => [one, base[j]]));
    return others(inForce(f.params[name]!, values), base[i]).map((other) =>
      base.map((old, j) => (j === i ? other : old)),
    );
  });
  const step = Math.max(1, changes.length / changed);
  for (let at = 0; at < changes.length; at += step) out.push(answered(f, changes[Math.floor(at)]!));
  return out;
}
