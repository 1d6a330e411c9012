import { isUnusual, outside } from "../../core/index.ts";
import { changedRule, isFixedByPeople, type Near } from "./changed.ts";
import { backingOf, isBacked, isLabelled } from "./evidence.ts";
import type { Difference } from "./finding.ts";
import type { Around } from "./fits.ts";
import { compareAll, matches, nearestFactor, rawMatches, settled, type Agreement, type Match } from "./match.ts";
import type { Library, Rule } from "./rules.ts";
import { whereItAgrees } from "./range.ts";
import { shownName, shownNumber, valueBy } from "./said.ts";
import { targetWith, type Target, type Typed } from "./target.ts";

/** A usual departure that is looked for where no rule agrees. */
export interface SearchedDeparture {
  readonly kind: string;
  readonly find: (target: Target, library: Library, around: Around) => Iterable<Near>;
}

/**
 * Rules that a formula may nearly be though nothing is written beside it: those of a form that hardly anything else has.
 * Where something is, what it says has been looked at already.
 */
const rulesOf = (library: Library, { inputs, label }: Target): readonly Rule[] =>
  isLabelled(label) ? [] : (library.rules.get(inputs.length) ?? []).filter(({ form }) => form === "known by its form");

const agreesEverywhere = ({ agreeing }: Agreement): boolean => agreeing.every(Boolean);
const leastShare = 0.15;
/** Agreement in a good part of the range: a case of the rule is there, others are not. */
const agreesInPart = ({ rule }: Match, { agreeing, points }: Agreement): boolean =>
  agreeing.filter(Boolean).length >= (rule.form === "common" ? points : leastShare * points);
const mostTyped = 8;
const mostMatches = 3;

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
          if (share < 0.5) continue;
          const isRule = match.order.every(
            (i, j) => !opened.inputs[i]!.typed || isFixedByPeople(rule.inputs[j]!.quantity),
          );
          yield { match, agreement, difference: typedDifference(match), ...(isRule && { isRule }) };
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

/** The whole is some factor times the rule. */
const factorInside: SearchedDeparture = {
  kind: "factor",
  *find(target, library) {
    for (const rule of rulesOf(library, target))
      for (const raw of rawMatches(rule, target, { anyFactor: true }).slice(0, 40)) {
        const unitsAlone = Math.sign(raw.factor) * Math.exp(nearestFactor(rule, target, raw.factor));
        const left = raw.factor / unitsAlone;
        const near = settled(rule, target, { ...raw, factor: unitsAlone });
        if (!near || Math.abs(Math.log(left)) > 0.8 || Math.abs(left - 1) < 1e-9 || !isBacked(near)) continue;
        const match = { ...near, out: near.out / left };
        const agreement = compareAll(match);
        if (!agreesEverywhere(agreement)) continue;
        const says = `a factor of ${shownNumber(left)} stands before the rule, which has none`;
        yield { match: near, agreement, difference: { kind: "factor", says, effect: left - 1 } };
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

/** One place of a rule that the labels speak for is otherwise. */
const changed: SearchedDeparture = {
  kind: "changed",
  *find(target, library, around) {
    const near = changedRule(target, library, around);
    if (near) yield near;
  },
};

/** In the order in which they are looked for. */
export const searchedDepartures: readonly SearchedDeparture[] = [changed, typedInside, factorInside];
