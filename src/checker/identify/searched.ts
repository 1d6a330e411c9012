import { isUnusual, outside, type Quantity } from "../../core/index.ts";
import { backingOf, couldBeBacked, isBacked, isNamed, isProduct } from "./evidence.ts";
import { changedRule, type Near } from "./changed.ts";
import type { Difference } from "./finding.ts";
import type { Around } from "./fits.ts";
import {
  compareAll,
  matches,
  nearestFactor,
  rawMatches,
  settled,
  supportFor,
  type Agreement,
  type Match,
} from "./match.ts";
import { shapesOver, type Library, type Rule } from "./rules.ts";
import { shownName, shownNumber, valueBy } from "./said.ts";
import { rootNear } from "./solve.ts";
import { supportOf } from "./support.ts";
import { targetWith, type Target, type Typed } from "./target.ts";

/** A usual departure that is looked for where no rule agrees. */
export interface SearchedDeparture {
  readonly kind: string;
  readonly find: (target: Target, library: Library, around: Around) => Iterable<Near>;
}

/** Rules that a formula could be called by. */
const rulesOf = (library: Library, target: Target): readonly Rule[] =>
  (library.rules.get(target.inputs.length) ?? []).filter((rule) => couldBeBacked(rule, target));

/**
 * Whether a formula looks like a rule before any number is tried: a constant of the rule is in it, or labels name its
 * result or most of its inputs and their units fit.
 */
function looksLike(rule: Rule, target: Target, constants: ReadonlySet<number>): boolean {
  if (rule.constants.some((c) => constants.has(c))) return true;
  const result = supportOf(target.label, rule.result);
  if (result.otherKind) return false;
  const best = (quantity: Quantity): number =>
    Math.max(
      ...target.inputs.map((input) => {
        const support = supportFor(input, quantity);
        return isNamed(support) ? 1 : Number(support.unit !== undefined) / 2;
      }),
    );
  const spoken = rule.inputs.reduce((sum, { quantity }) => sum + best(quantity), 0);
  return spoken + Number(isNamed(result)) >= 0.6 * (rule.inputs.length + 1);
}
const agreesEverywhere = ({ agreeing }: Agreement): boolean => agreeing.every(Boolean);
const leastShare = 0.15;
/** Agreement in a good part of the range: a case of the rule is there, others are not. */
const agreesInPart = ({ rule }: Match, { agreeing, points }: Agreement): boolean =>
  agreeing.filter(Boolean).length >= (rule.form === "common" ? points : leastShare * points);
const mostTyped = 8;
const mostMatches = 3;
const mostSettled = 24;

/** Says too little by itself to be called nearly a rule, whatever stands beside it. */
const saysLittle = (match: Match): boolean => match.rule.form === "common" && match.rule.inputs.length < 2;

/** The sheet's value beside another. */
function effect(target: Target, by: number): { readonly effect?: number } {
  const value = target.run(target.inputs.map((input) => input.value)) / by - 1;
  return Number.isFinite(value) ? { effect: value } : {};
}

/** An argument is a number typed inside the formula, itself or one over it. */
const typedInside: SearchedDeparture = {
  kind: "typed",
  *find(target, library) {
    const could = typedIn(target).slice(0, mostTyped);
    const singles = could.flatMap((one): readonly Typed[][] => [[one], [{ ...one, inverse: true }]]);
    const pairs = could.length > 3 ? [] : could.flatMap((a, i) => could.slice(i + 1).map((b): Typed[] => [a, b]));
    for (const typed of [...singles, ...pairs]) {
      const opened = targetWith(target, typed);
      if (!opened) continue;
      for (const rule of rulesOf(library, opened))
        for (const match of matches(rule, opened).slice(0, mostMatches)) {
          if (!isBacked(match, backingOf(match)) || !plausible(match)) continue;
          const agreement = compareAll(match);
          const share = agreement.agreeing.filter(Boolean).length / agreement.points;
          if (share >= 0.5) yield { match, agreement, difference: typedDifference(match) };
        }
    }
  },
};

/** The typed numbers that may be arguments; the same one typed twice is one. */
function typedIn(target: Target): readonly Typed[] {
  const numbers = target.program.open();
  const out: Typed[] = [];
  numbers.forEach((number, at) => {
    if (!number.couldBeArgument || numbers.findIndex((one) => one.value === number.value && one.couldBeArgument) < at)
      return;
    const also = numbers.flatMap((one, n) => (n > at && one.value === number.value ? [n] : []));
    out.push({ at, also, number });
  });
  return out;
}

/** A typed number that is an argument lies within its everyday range. */
function plausible({ rule, target, order, scales }: Match): boolean {
  return order.every((i, j) => {
    const input = target.inputs[i]!;
    if (!input.typed) return true;
    const { quantity } = rule.inputs[j]!;
    const there = input.value * scales[j]!;
    return outside(quantity, there) === undefined && !isUnusual(quantity, there);
  });
}

function typedDifference(match: Match): Difference {
  const { rule, target, order, scales } = match;
  const said: string[] = [];
  let usual = match;
  order.forEach((i, j) => {
    const { typed, value } = target.inputs[i]!;
    if (!typed) return;
    const { quantity } = rule.inputs[j]!;
    const unit = quantity.unit === "–" ? "" : ` ${quantity.unit}`;
    const there = shownNumber(value * scales[j]!);
    const as = typed.inverse ? `1/${there}` : there;
    said.push(
      `constant typed inside: ${shownNumber(Math.abs(typed.number.value))} for ${shownName(quantity)} = ${as}${unit}`,
    );
    const { default: own } = quantity;
    if (own === undefined) return;
    said.push(`the function takes ${shownNumber(own)} where nothing is given`);
    const inputs = target.inputs.map((one, n) => (n === i ? { ...one, value: own / scales[j]! } : one));
    usual = { ...usual, target: { ...usual.target, inputs } };
  });
  return { kind: "typed", says: said.join("; "), ...(usual !== match && effect(target, valueBy(usual))) };
}

/** Candidates whose value is about the rule's: a constant or a power differs. */
function about(rule: Rule, target: Target, most = 0.7): readonly Match[] {
  return rawMatches(rule, target, { about: most, power: 0.2 })
    .slice(0, mostSettled)
    .flatMap(
      (raw) =>
        settled(rule, target, {
          ...raw,
          factor: Math.sign(raw.factor) * Math.exp(nearestFactor(rule, target, raw.factor)),
        }) ?? [],
    )
    .sort((a, b) => b.liking - a.liking)
    .slice(0, mostMatches);
}

/** A number inside the formula is another than the rule's. */
const otherConstant: SearchedDeparture = {
  kind: "constant",
  *find(target, library) {
    const numbers = target.program.open();
    const typed = new Set(numbers.map(({ value }) => value));
    const own = target.inputs.map(({ value }) => (value === 0 ? 1 : value));
    for (const rule of rulesOf(library, target).filter((r) => looksLike(r, target, typed)))
      for (const match of about(rule, target)) {
        if (saysLittle(match) && !isSpokenOf(match)) continue;
        if (!isBacked(match)) continue;
        for (const [at, { value }] of numbers.entries()) {
          if (value === 0) continue;
          const wanted = rule.evaluate(match.order.map((i, j) => own[i]! * match.scales[j]!)) / match.out;
          const miss = (v: number): number => {
            target.program.change(at, v);
            const there = target.run(own);
            target.program.change(at, undefined);
            return there / wanted - 1;
          };
          const right = rootNear(miss, value);
          if (right === undefined || Math.abs(right / value - 1) < 1e-9) continue;
          target.program.change(at, right);
          const agreement = compareAll(match);
          target.program.change(at, undefined);
          if (!agreesInPart(match, agreement)) continue;
          const says = `constant typed inside: ${shownNumber(value)}; the rule has ${shownNumber(right)}`;
          yield { match, agreement, difference: { kind: "constant", says, ...effect(target, valueBy(match)) } };
        }
      }
  },
};

const isSpokenOf = (match: Match): boolean => {
  const { resultNamed, named } = backingOf(match);
  return resultNamed && named > 0;
};

/** The whole is some factor times the rule. */
const factorInside: SearchedDeparture = {
  kind: "factor",
  *find(target, library) {
    const typed = new Set(target.program.open().map(({ value }) => value));
    for (const rule of rulesOf(library, target).filter((r) => looksLike(r, target, typed)))
      for (const raw of rawMatches(rule, target, { anyFactor: true }).slice(0, 40)) {
        const unitsAlone = Math.sign(raw.factor) * Math.exp(nearestFactor(rule, target, raw.factor));
        const left = raw.factor / unitsAlone;
        const near = settled(rule, target, { ...raw, factor: unitsAlone });
        if (!near || Math.abs(Math.log(left)) > 0.8 || Math.abs(left - 1) < 1e-9) continue;
        if (!isBacked(near) || (rule.form === "common" && !isSpokenOf(near))) continue;
        const match = { ...near, out: near.out / left };
        const agreement = compareAll(match);
        if (!agreesEverywhere(agreement)) continue;
        const says = `a factor of ${shownNumber(left)} stands before the rule, which has none`;
        yield { match: near, agreement, difference: { kind: "factor", says, effect: left - 1 } };
      }
  },
};

/** One input at 0: the rest of the rule is there. */
const missingTerm: SearchedDeparture = {
  kind: "term",
  *find(target, library) {
    const rules = (library.shortened.get(target.inputs.length) ?? []).filter((rule) => couldBeBacked(rule, target));
    for (const rule of rules)
      for (const match of matches(rule, target).slice(0, mostMatches)) {
        const backing = backingOf(match);
        // Less than the rule is easily something else: its result and most of its inputs must be called so.
        if (!isBacked(match, backing) || !backing.resultNamed || backing.named < 0.6 * rule.inputs.length) continue;
        const agreement = compareAll(match);
        if (!agreesEverywhere(agreement)) continue;
        const { quantity } = rule.without!;
        yield {
          match,
          agreement,
          difference: { kind: "term", says: `the term with ${shownName(quantity)} is missing: the rule with 0 for it` },
        };
      }
  },
};

/** Where a rule holds in a part of its range alone, a case or a limit missing, what part; undefined where that says too little. */
export function rangeOf(match: Match, agreement: Agreement): string | undefined {
  const { rule, target } = match;
  const { named, resultNamed } = backingOf(match);
  const share = agreement.agreeing.filter(Boolean).length / agreement.points;
  if (resultNamed && named === rule.inputs.length && named > 2 && share >= 0.5 && share < 1)
    return whereItAgrees(match, agreement);
  // An input without influence there says nothing of the rule.
  if (rule.form === "common" || !agreesInPart(match, agreement) || target.shapes.some(({ power }) => power === 0))
    return undefined;
  return whereItAgrees(match, agreement);
}

/** "agrees only where f_cm is up to 35 MPa", where one input tells the agreeing points from the others. */
export function whereItAgrees({ rule }: Match, { agreeing }: Agreement): string {
  for (const [j, { quantity }] of rule.inputs.entries()) {
    const at = (agrees: boolean): readonly number[] =>
      rule.points.flatMap((p, k) => (agreeing[k] === agrees ? [p[j]!] : []));
    const [yes, no] = [at(true), at(false)];
    const unit = quantity.unit === "–" ? "" : ` ${quantity.unit}`;
    if (yes.length > 0 && Math.max(...yes) < Math.min(...no))
      return `Agrees only up to about ${shownName(quantity)} = ${shownNumber(Math.max(...yes))}${unit}; beyond, the rule goes on otherwise`;
    if (Math.min(...yes) > Math.max(...no))
      return `Agrees only from about ${shownName(quantity)} = ${shownNumber(Math.min(...yes))}${unit} on; below, the rule is another`;
  }
  return "Agrees in a part of the range only: a limit or a case of the rule is missing";
}

/** Rule and formula differ by one product of powers of the inputs: a term is missing, doubled, or has another sign or factor. */
const oneTerm: SearchedDeparture = {
  kind: "term",
  *find(target, library) {
    const typed = new Set(target.program.open().map(({ value }) => value));
    for (const rule of rulesOf(library, target)) {
      if (rule.inputs.length < 3 || isProduct(rule) || !looksLike(rule, target, typed)) continue;
      for (const match of about(rule, target, 3)) {
        const backing = backingOf(match);
        const spoken = backing.named + backing.inUnits / 2 + Number(backing.resultNamed);
        if (!isBacked(match, backing) || spoken < 0.6 * rule.inputs.length) continue;
        const { order, scales, out } = match;
        const byRule = (x: readonly number[]): number => rule.evaluate(order.map((i, j) => x[i]! * scales[j]!)) / out;
        const rest = (x: readonly number[]): number => byRule(x) - target.run(x);
        const { shapes } = shapesOver(rest as (x: ArrayLike<number>) => number, target.places);
        if (shapes.some(({ power }) => power === undefined) || shapes.every(({ power }) => power === 0)) continue;
        const parts = order.flatMap((i, j) => (shapes[i]!.power ? [shownName(rule.inputs[j]!.quantity)] : []));
        const agreement = { points: rule.points.length, agreeing: rule.points.map(() => false), largest: 0 };
        const says = `one term differs from the rule, that with ${parts.join(", ")}: missing, doubled, or with another sign or factor`;
        yield { match, agreement, difference: { kind: "term", says, ...effect(target, valueBy(match)) } };
      }
    }
  },
};

/** One place of a rule that the labels speak for is otherwise. */
const changed: SearchedDeparture = {
  kind: "changed",
  *find(target, library, around) {
    const near = changedRule(target, library, around);
    if (near) yield near;
  },
};

/** In the order in which they are looked for. */
export const searchedDepartures: readonly SearchedDeparture[] = [
  changed,
  typedInside,
  factorInside,
  otherConstant,
  missingTerm,
  oneTerm,
];
