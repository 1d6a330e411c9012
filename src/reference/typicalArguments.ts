import {
  InputError,
  argumentCount,
  choicesGiven,
  isUnused,
  outside,
  parametersFor,
  read,
  readFactor,
  warnings,
  type Argument,
  type Cell,
  type Declaration,
  type Parameter,
  type Quantity,
} from "../core/index.ts";
import type { WorksheetFunction } from "../../functions/index.ts";
import { everydayChoice, everydayValue } from "./everydayValues.ts";
import { typicalRows } from "./typicalTables.ts";

type Limits = Readonly<Record<string, { readonly min?: number; readonly max?: number } | undefined>>;

/** Numbers from 0 to 1, the same in every build. */
function sequence(seed: number): () => number {
  let state = seed >>> 0;
  return () => {
    state = (Math.imul(state, 1_664_525) + 1_013_904_223) >>> 0;
    return state / 2 ** 32;
  };
}

/** As a person would give it: two significant digits, or three where two leave the range. */
function rounded(value: number, low: number, high: number): number {
  for (const digits of [2, 3, 6]) {
    const round = Number(value.toPrecision(digits));
    if (round >= low && round <= high) return round;
  }
  return value;
}

/**
 * The everyday value where `known` gives one, else a share of the way through the everyday range, or through the
 * allowed one cut to a width that means something.
 */
function numberOf(q: Quantity, u: number, known?: number, limit?: Limits[string]): number {
  const factor = readFactor(q);
  let low = Math.max(q.min ?? q.above ?? -100, q.typical?.[0] ?? -Infinity, (limit?.min ?? -Infinity) / factor);
  let high = Math.min(
    q.max ?? q.below ?? (q.typical ? Infinity : Math.max(1000, 10 * Math.abs(low))),
    q.typical?.[1] ?? Infinity,
    (limit?.max ?? Infinity) / factor,
  );
  if (high < low) [low, high] = limit?.min === undefined ? [high, high] : [low, low];
  const wide = q.typical === undefined && low >= 0 && high >= 1e5;
  const from = Math.max(low, high * 1e-6);
  if (q.default !== undefined) return q.default;
  if (
    known !== undefined &&
    outside(q, known) === undefined &&
    known * factor >= (limit?.min ?? -Infinity) &&
    known * factor <= (limit?.max ?? Infinity)
  )
    return known;
  let value = wide ? from * (high / from) ** u : low + u * (high - low);
  if (q.above !== undefined && value <= q.above) value = q.above + 1e-3 * (high - q.above);
  return q.whole ? Math.round(value) : rounded(value, low, high);
}

function argumentOf(
  id: string,
  name: string,
  p: Parameter,
  share: () => number,
  everyday: boolean,
  last: boolean,
  limit?: Limits[string],
): Argument {
  switch (p.kind) {
    case "number":
      if (p.blank !== undefined && last) return null;
      return numberOf(p, share(), everyday ? everydayValue(id, name, p.key) : undefined, limit);
    case "choice":
      if (p.blank !== undefined && last) return null;
      return (
        (everyday ? (p.default ?? everydayChoice(p.key)) : undefined) ??
        p.values[Math.floor(share() * p.values.length) % p.values.length]!.value
      );
    case "text":
      return "FRICTION_STRESS";
    // Rows ascend, as most tables with an order want it.
    case "table":
      return typicalRows(p, (column, row): Cell =>
        column.kind === "number" ? numberOf(column, Math.min(0.9, 0.3 + 0.2 * row)) : column.values[0]!.value,
      );
  }
}

/** The bounds that follow from these arguments; undefined where one of them is refused by itself. */
function limitsOf(f: Declaration, args: readonly Argument[]): Limits | undefined {
  try {
    return f.limits?.(read({ ...f, limits: () => ({}) }, args));
  } catch (e) {
    if (e instanceof InputError) return undefined;
    throw e;
  }
}

function draw(f: Declaration, share: () => number, everyday: boolean): readonly Argument[] {
  let limits: Limits = {};
  let args: readonly Argument[] = [];
  const all = Object.entries(f.params);
  const [least] = argumentCount(f);
  const shares = all.map(share);
  // Bounds of one argument follow from others: settled in a few rounds.
  for (let round = 0; round < 4; round++) {
    const drawn = (name: string, p: Parameter, i: number): Argument =>
      argumentOf(f.id, name, p, () => shares[i]!, everyday, i >= least, limits[name]);
    // Choices first: they decide what other arguments are.
    const choices = all.map(([name, p], i) => (p.kind === "choice" ? drawn(name, p, i) : undefined));
    const inForce = parametersFor(f, choices);
    const chosen = choicesGiven(f, choices);
    args = all.map(([name, p], i) => (isUnused(p, chosen) ? null : drawn(name, inForce[i]!, i)));
    const settled = f.limits && limitsOf(f, args);
    if (!settled) break;
    limits = settled;
  }
  return args;
}

/** No arguments were found that a function accepts. */
export class NoExample extends Error {
  override readonly name = "NoExample";
}

/**
 * Everyday arguments that a function accepts, the same in every build: everyday values first, then draws from the
 * ranges with a fixed seed, those without a warning before others. Throws NoExample where a thousand draws give none:
 * then its range wants rows in typicalTables.ts.
 */
export function typicalArguments(of: WorksheetFunction, declaration: Declaration): readonly Argument[] {
  const next = sequence(1);
  let accepted: readonly Argument[] | undefined;
  let refused = "";
  for (let attempt = 0; attempt < 1000; attempt++) {
    const args = draw(declaration, attempt === 0 ? () => 0.5 : next, attempt < 20);
    const result = of.call(args);
    if ("error" in result) {
      refused ||= result.error.message;
      continue;
    }
    if (attempt === 0 || (result.value !== 0 && warnings(declaration, args).length === 0)) return args;
    accepted ??= args;
    if (attempt >= 300) return accepted;
  }
  if (accepted) return accepted;
  throw new NoExample(`no everyday arguments were found for ${of.id}; the first were refused: ${refused}`);
}
