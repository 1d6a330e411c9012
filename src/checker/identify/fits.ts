import { keyOf, type Book } from "../../cells/index.ts";
import { isUnusual, outside, type Label as Choice, type Quantity } from "../../core/index.ts";
import type { Label } from "../trace/labels.ts";
import { isNamed } from "./evidence.ts";
import type { Labels } from "./labelled.ts";
import { scalesFor, supportFor } from "./match.ts";
import type { Library, Rule } from "./rules.ts";
import { scalesOf } from "./scales.ts";
import { liking, namesFunction, supportOf } from "./support.ts";
import type { Target, TargetInput } from "./target.ts";

/** The sheet around a formula. */
export interface Around {
  readonly book: Book;
  readonly labels: Labels;
}

/**
 * A rule that a formula may be nearly, by what is written beside the cells: which input is which argument, whatever the
 * numbers say. Arguments that the formula does not use are taken from the sheet where a label names them.
 */
export interface Fit {
  readonly rule: Rule;
  /** The formula with the further cells as inputs without influence. */
  readonly target: Target;
  /** For each input of the rule the number of the target's; −1 where there is none. */
  readonly order: readonly number[];
  readonly scales: readonly number[];
  /** What one of the value's unit may be in the rule's. */
  readonly outs: readonly number[];
  /** Inputs of the rule that stand nowhere. */
  readonly free: readonly number[];
  /** Of the formula's inputs, those that symbol or words name. */
  readonly named: number;
  readonly resultNamed: boolean;
  /** Nothing is written beside the result: the inputs alone speak. */
  readonly resultBare: boolean;
  readonly liking: number;
}

const leastNamed = 0.6;
/** Where nothing is written beside the result. */
const leastNamedBare = 0.75;
const mostMissing = 4;
const mostOrders = 3;
const mostWalked = 300;
const mostUnits = 8;
const mostFits = 24;

const byResult = new WeakMap<Library, ReadonlyMap<Quantity, readonly Rule[]>>();
function rulesByResult(library: Library): ReadonlyMap<Quantity, readonly Rule[]> {
  const before = byResult.get(library);
  if (before) return before;
  const made = new Map<Quantity, Rule[]>();
  for (const rule of [...library.rules.values()].flat())
    made.set(rule.result, [...(made.get(rule.result) ?? []), rule]);
  byResult.set(library, made);
  return made;
}

/** Symbols of which one is the other and more: fck(t0) and fck,t. */
function startsAlike(label: Label | undefined, { symbol }: Quantity): boolean {
  const [a, b] = [label?.symbol ?? "", symbol].map((text) => text.replace(/[^A-Za-z0-9α-ωΑ-Ω]/g, ""));
  return Math.min(a!.length, b!.length) >= 3 && (a!.startsWith(b!) || b!.startsWith(a!));
}

const cellsKnown = new WeakMap<Book, Map<number, readonly TargetInput[]>>();

/** The cells of a sheet that hold numbers and have a label. */
function labelledCells({ book, labels }: Around, sheet: number): readonly TargetInput[] {
  const known = cellsKnown.get(book) ?? new Map<number, readonly TargetInput[]>();
  cellsKnown.set(book, known);
  const before = known.get(sheet);
  if (before) return before;
  const made = book.sheets[sheet]!.cells.flatMap((line, row) =>
    line.flatMap(({ value }, column): TargetInput[] => {
      if (typeof value !== "number") return [];
      const key = keyOf(sheet, row, column);
      const label = labels.of(key);
      return label ? [{ key, label, value }] : [];
    }),
  );
  known.set(sheet, made);
  return made;
}

/** A cell of the formula's sheet whose label names a quantity, by symbol, by several words or as the only one, and its unit. */
export function cellCalled(
  around: Around,
  quantity: Quantity,
  { cell, inputs }: Target,
): { readonly input: TargetInput; readonly scale: number } | undefined {
  const could: { readonly input: TargetInput; readonly scale: number }[] = [];
  for (const input of labelledCells(around, cell.sheet)) {
    if (input.key === cell.key || inputs.some(({ key }) => key === input.key)) continue;
    const support = supportOf(input.label, quantity);
    if (support.otherwise || support.otherKind || !(isNamed(support) || startsAlike(input.label, quantity))) continue;
    if (support.unit === undefined && quantity.unit !== "–") continue;
    const one = { input, scale: support.unit ?? 1 };
    if (support.symbol || support.words >= 2) return one;
    could.push(one);
  }
  return could.length === 1 && quantity.unit !== "–" ? could[0] : undefined;
}

const leastSpoken = 0.75;

/**
 * The arguments that an input can be by its label. Where no word or unit tells, as of two values under one label, any of
 * another kind is out.
 */
function optionsOf(rule: Rule, input: TargetInput): { readonly spoken: boolean; readonly js: readonly number[] } {
  const js = rule.inputs.flatMap(({ quantity }, j) => (canMean(input, quantity) ? [j] : []));
  if (js.length > 0) return { spoken: true, js };
  const could = rule.inputs.flatMap(({ quantity }, j) => {
    const support = supportFor(input, quantity);
    const value = input.value * (support.unit ?? 1);
    const fits = !support.otherKind && outside(quantity, value) === undefined && !isUnusual(quantity, value);
    return fits ? [j] : [];
  });
  return { spoken: false, js: could };
}

/** A symbol with what it is a function of: φ(t,t0) is φ. */
function isSymbolOf(label: Label | undefined, { symbol }: Quantity): boolean {
  const head = /^(?<head>[^(]+)\(.*\)$/.exec(label?.symbol ?? "")?.groups?.["head"];
  return head !== undefined && head.replace(/[_,]/g, "") === symbol.replace(/[_,]/g, "");
}

/** Whether a label can mean a quantity: not where it has a unit of another kind. */
function canMean(input: TargetInput, quantity: Quantity): boolean {
  const support = supportFor(input, quantity);
  if (support.otherKind) return false;
  return isNamed(support) || support.unit !== undefined;
}

const likingOf = (input: TargetInput, quantity: Quantity): number => {
  const support = supportFor(input, quantity);
  return liking(support, quantity, input.value, support.unit ?? 1);
};

interface Order {
  readonly order: readonly number[];
  readonly points: number;
}

/** The best ways to give every input of the formula an argument by its label. */
function ordersByLabel(rule: Rule, { inputs }: Target): readonly Order[] {
  const all = inputs.map((input) => optionsOf(rule, input));
  if (all.some(({ js }) => js.length === 0) || all.filter(({ spoken }) => spoken).length < leastSpoken * inputs.length)
    return [];
  const options = all.map(({ js }, i) =>
    js.map((j) => ({ j, points: likingOf(inputs[i]!, rule.inputs[j]!.quantity) })).sort((a, b) => b.points - a.points),
  );
  const found: Order[] = [];
  const order = new Array<number>(rule.inputs.length).fill(-1);
  let walked = 0;
  const walk = (i: number, points: number): void => {
    if (walked++ > mostWalked) return;
    if (i === inputs.length) return void found.push({ order: [...order], points });
    for (const { j, points: more } of options[i]!) {
      if (order[j] !== -1) continue;
      order[j] = i;
      walk(i + 1, points + more);
      order[j] = -1;
    }
  };
  walk(0, 0);
  return found.sort((a, b) => b.points - a.points).slice(0, mostOrders);
}

/** Units in which the inputs may stand: as their labels say, else everyday ones. */
function unitsOf(rule: Rule, target: Target, order: readonly number[]): readonly (readonly number[])[] {
  let all: readonly (readonly number[])[] = [[]];
  for (const [j, { quantity }] of rule.inputs.entries()) {
    const input = target.inputs[order[j]!];
    const unit = input && supportFor(input, quantity).unit;
    const plain = input && quantity.unit === "–" && input.label?.known?.unit === "–";
    const usual = input ? scalesFor(input, quantity, target.rareUnits).filter((scale) => scale > 0) : [1];
    const own = unit !== undefined ? [unit] : plain ? [1] : usual.slice(0, 2);
    all = all.flatMap((before) => (own.length > 0 ? own : [1]).map((scale) => [...before, scale])).slice(0, mostUnits);
  }
  return all;
}

/** Words and symbols of a choice that the formula's own label has: class N, sudden release. */
function choicesSpokenOf(rule: Rule, label: Label | undefined): number {
  const said = ` ${label?.item ?? ""} ${label?.description ?? ""} `;
  const speaks = (value: Choice): boolean => {
    const word = String(value).replace(/_/g, " ");
    return word.length < 3 ? said.includes(`class ${word} `) || said.includes(`class ${word})`) : said.includes(word);
  };
  return Object.values(rule.choices).filter(speaks).length;
}

/** The rules that labels speak for, those first that they speak for most. */
export function fitsOf(target: Target, library: Library, around: Around): readonly Fit[] {
  if (target.cut.part) return [];
  const out: Fit[] = [];
  const count = target.inputs.length;
  const { description = "", symbol = "", unit = "" } = target.label ?? {};
  const resultBare = `${description}${symbol}${unit}` === "";
  for (const [quantity, rules] of rulesByResult(library)) {
    const result = supportOf(target.label, quantity);
    if (result.otherKind || result.otherwise) continue;
    const quantityNamed = isNamed(result) || isSymbolOf(target.label, quantity);
    const inItsUnit = result.unit !== undefined && quantity.unit !== "–";
    const all = scalesOf(quantity, target.rareUnits).map(({ factor }) => factor);
    const outs = result.unit === undefined ? all : [result.unit];
    for (const rule of rules) {
      if (rule.inputs.length < count || rule.inputs.length > count + (resultBare ? 0 : mostMissing)) continue;
      if (resultBare && rule.form === "common") continue;
      const resultNamed = quantityNamed || namesFunction(target.label, rule.formula.id);
      if (!resultBare && !resultNamed && !inItsUnit) continue;
      for (const { order, points } of ordersByLabel(rule, target)) {
        const named = order.filter(
          (i, j) => i >= 0 && isNamed(supportFor(target.inputs[i]!, rule.inputs[j]!.quantity)),
        );
        if (named.length < (resultBare ? leastNamedBare : leastNamed) * count) continue;
        const further = withFurther(rule, target, order, around);
        const spoken = choicesSpokenOf(rule, target.label) + (resultNamed ? result.words + (result.symbol ? 3 : 0) : 0);
        for (const scales of unitsOf(rule, further.target, further.order))
          out.push({
            rule,
            ...further,
            scales,
            outs,
            named: named.length,
            resultNamed,
            resultBare,
            // What the sheet has for all arguments goes before a particular case.
            liking: points + spoken - 2 * further.free.length - (rule.particular ? 3 : 0),
          });
      }
    }
  }
  return out.sort((a, b) => b.liking - a.liking).slice(0, mostFits);
}

/** The arguments that the formula does not use, from the sheet where it has them. */
function withFurther(
  rule: Rule,
  target: Target,
  order: readonly number[],
  around: Around,
): Pick<Fit, "target" | "order" | "free"> {
  if (!order.includes(-1)) return { target, order, free: [] };
  const inputs = [...target.inputs];
  const free: number[] = [];
  const whole = order.map((i, j) => {
    if (i >= 0) return i;
    const { quantity } = rule.inputs[j]!;
    const there = cellCalled(around, quantity, { ...target, inputs });
    if (there && outside(quantity, there.input.value * there.scale) === undefined) return inputs.push(there.input) - 1;
    free.push(j);
    return -1;
  });
  return { target: { ...target, inputs }, order: whole, free };
}
