import { type Address, agrees } from "../../cells/index.ts";
import { boundsOf } from "../../sheet/index.ts";
import { valueAfter } from "./change.ts";
import { inputName, type InputNow, type SheetInput } from "./sheetInputs.ts";
import { State, type Questioned } from "./state.ts";

/** One way of changing an input, and what governs then. */
export interface Step {
  /** "+1 %", "−1", "+0.5 mm" */
  readonly amount: string;
  readonly ok: true;
  /** The largest utilisation of the checks. */
  readonly utilisation: number;
  /** By how much it differs from the sheet's own. */
  readonly change: number;
  /** Which check has it. */
  readonly governs: string;
  /** By how much each check's own utilisation differs, by its id; checks without a number are left out. */
  readonly changes: ReadonlyMap<string, number>;
}

/** A way that gives no answer, and why. */
export interface NoStep {
  readonly amount: string;
  readonly ok: false;
  readonly why: string;
}

/** How the governing utilisation answers to one input. */
export interface Sensitivity {
  readonly input: SheetInput;
  /** The cell, where the cells of a table are taken one by one. */
  readonly cell: number | undefined;
  readonly label: string;
  readonly at: Address;
  readonly down: Step | NoStep;
  readonly up: Step | NoStep;
}

export interface SensitivityOptions {
  /** Of each number; whole numbers change by 1. */
  readonly percent: number;
  /** Table inputs as whole columns moved together, or cell by cell. */
  readonly tables: "columns" | "cells";
}

export const usual: SensitivityOptions = { percent: 1, tables: "columns" };

/** The change of one input: by per cent, by 1 for whole numbers, by an absolute step where it is 0 throughout. */
interface Way {
  readonly kind: "percent" | "by";
  readonly size: number;
  readonly words: string;
}

const unitOf = ({ unit }: SheetInput): string => (unit === "–" || unit === "" ? "" : ` ${unit}`);

/** How an input is moved; a text where no sensible step is known. */
function wayOf(input: SheetInput, cells: readonly InputNow[], percent: number): Way | string {
  const numbers = cells.map(({ value }) => value).filter((v): v is number => typeof v === "number");
  if (numbers.length === 0) return "it is empty";
  const bounds = boundsOf(input.spec, input.says.quantity);
  if (bounds.whole) return { kind: "by", size: 1, words: "1" };
  if (numbers.some((n) => n !== 0)) return { kind: "percent", size: percent, words: `${percent} %` };
  const typical = input.says.quantity?.typical;
  const [low, high] = typical ?? [bounds.min ?? bounds.above, bounds.max ?? bounds.below];
  if (low === undefined || high === undefined) return "it is 0, and no range is stated that a step could be taken from";
  const size = Number((((high - low) * percent) / 100).toPrecision(3));
  return {
    kind: "by",
    size,
    words: `${size}${unitOf(input)} (${percent} % of its ${typical ? "everyday" : "allowed"} range, since it is 0)`,
  };
}

/** An input, or one cell of it, whose effect is asked for. */
interface Asked {
  readonly input: SheetInput;
  readonly cell: number | undefined;
  readonly cells: readonly InputNow[];
}

/** What a utilisation changes by; rounding alone is no change. */
function changeOf(before: number, after: number): number {
  return agrees(before, after) ? 0 : after - before;
}

/** Moves cells one way; zeros among others stay, and empty cells. */
function step(
  of: Questioned,
  input: SheetInput,
  cells: readonly InputNow[],
  way: Way,
  sign: 1 | -1,
  now: { readonly largest: number; readonly numbers: ReadonlyMap<string, number> },
): Step | NoStep {
  const amount = `${sign > 0 ? "+" : "−"}${way.words}`;
  const changes = [];
  for (const cell of cells) {
    if (typeof cell.value !== "number" || (way.kind === "percent" && cell.value === 0)) continue;
    const after = valueAfter(input, cell, { kind: way.kind, value: sign * way.size });
    if ("fault" in after) return { amount, ok: false, why: after.fault };
    changes.push({ sheet: of.sheet, ...cell.at, value: after.value });
  }
  const state = new State(of, changes);
  let largest: { readonly utilisation: number; readonly of: string } | undefined;
  const without: string[] = [];
  const own = new Map<string, number>();
  let reason = "";
  for (const check of of.checks) {
    const { utilisation } = state.check(check);
    const before = now.numbers.get(check.id);
    if (utilisation === undefined && before !== undefined) {
      without.push(check.description);
      reason ||= state.reason(check);
    }
    if (utilisation !== undefined && before !== undefined) own.set(check.id, changeOf(before, utilisation));
    if (utilisation !== undefined && utilisation > (largest?.utilisation ?? -Infinity))
      largest = { utilisation, of: check.description };
  }
  if (!largest) return { amount, ok: false, why: reason || "no check has a number then" };
  // A check that loses its number may have been the governing one: the largest of the others would say too little.
  if (without.length > 0) return { amount, ok: false, why: `${without.join(", ")}: ${reason || "no number then"}` };
  return {
    amount,
    ok: true,
    utilisation: largest.utilisation,
    change: changeOf(now.largest, largest.utilisation),
    governs: largest.of,
    changes: own,
  };
}

/** What a step changes: the governing utilisation, or that of one check by its id; undefined where it gives no answer. */
export function changeIn(step: Step | NoStep, check?: string): number | undefined {
  return step.ok ? (check === undefined ? step.change : step.changes.get(check)) : undefined;
}

/** The larger of an input's two changes, without its sign. */
export function effectOn({ down, up }: Pick<Sensitivity, "down" | "up">, check?: string): number | undefined {
  const changes = [down, up].flatMap((s) => changeIn(s, check) ?? []).map(Math.abs);
  return changes.length === 0 ? undefined : Math.max(...changes);
}

/** The larger effect first, on the governing utilisation or on one check; inputs without an answer last. */
export function sorted(all: readonly Sensitivity[], check?: string): readonly Sensitivity[] {
  return [...all].sort((a, b) => (effectOn(b, check) ?? -1) - (effectOn(a, check) ?? -1));
}

/**
 * How the governing utilisation (the largest of the checks) answers to each numeric input moved a little, one input
 * at a time, all else left as it
 * is. Yields after each input, so that whoever asks can draw, wait or stop. The sheet is not touched.
 */
export function* sensitivities(
  of: Questioned,
  { percent, tables }: SensitivityOptions = usual,
): Generator<{ readonly done: number; readonly of: number; readonly found?: Sensitivity }> {
  const own = new State(of);
  const numbers = new Map(
    of.checks.flatMap((check) => {
      const { utilisation } = own.check(check);
      return utilisation === undefined ? [] : [[check.id, utilisation] as const];
    }),
  );
  if (numbers.size === 0)
    throw new Error(
      "No check of this sheet has a utilisation yet: inputs are missing or in error. Complete them first",
    );
  const now = { largest: Math.max(...numbers.values()), numbers };
  const asked = of.inputs
    .filter(({ kind }) => kind === "number")
    .flatMap((input): readonly Asked[] =>
      tables === "cells" && input.cells.length > 1
        ? input.cells.map((one, cell) => ({ input, cell, cells: [one] }))
        : [{ input, cell: undefined, cells: input.cells }],
    );
  yield { done: 0, of: asked.length };
  for (const [i, { input, cell, cells }] of asked.entries()) {
    const way = wayOf(input, cells, percent);
    const [down, up] =
      typeof way === "string"
        ? [{ amount: "", ok: false, why: way } as const, { amount: "", ok: false, why: way } as const]
        : [step(of, input, cells, way, -1, now), step(of, input, cells, way, 1, now)];
    const first = cells[0]!;
    const label = inputName(
      input,
      cell === undefined ? { label: input.cells.length > 1 ? `all ${input.cells.length} cells` : "" } : first,
    ).replace(/^input /, "");
    yield { done: i + 1, of: asked.length, found: { input, cell, label, at: first.at, down, up } };
  }
}
