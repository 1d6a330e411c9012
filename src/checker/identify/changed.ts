import type { Book } from "../../cells/index.ts";
import { isUnusual, outside, q, type Quantity } from "../../core/index.ts";
import { backingOf, isProduct } from "./evidence.ts";
import { Equations, type StepChange } from "./equation/equations.ts";
import { written } from "./equation/written.ts";
import type { Difference } from "./finding.ts";
import { fitsOf, type Around, type Fit } from "./fits.ts";
import { compareAll, type Agreement, type Match } from "./match.ts";
import { inputText } from "./offer.ts";
import type { TypedNumber } from "./program.ts";
import type { Library, Rule } from "./rules.ts";
import { whereItAgrees } from "./range.ts";
import { shownName, shownNumber, valueBy } from "./said.ts";
import { scalesOf } from "./scales.ts";
import { rootNear } from "./solve.ts";
import type { Target } from "./target.ts";

/** A rule that a formula is nearly, and in what it departs from it. */
export interface Near {
  readonly match: Match;
  readonly agreement: Agreement;
  readonly difference: Difference;
  /** It is the rule, with a number typed in the place of an argument that people fix as they please. */
  readonly isRule?: true;
}

/** A rule that agrees as it is, in a part of its range. */
interface AsItIs {
  readonly match: Match;
  readonly agreement: Agreement;
}

const tolerance = 1e-9;
/** What two ways of computing the same may differ by. */
const exact = 1e-12;
const leastPlaces = 3;
const leastShare = 0.06;
/** Where the sheet's own values disagree. */
const leastElsewhere = 0.15;
const mostTyped = 8;
const mostApart = Math.log(12);

const close = (a: number, b: number): boolean => Math.abs(a - b) <= tolerance * Math.max(Math.abs(a), Math.abs(b));

/** A fit with the rule's arguments at the places about the sheet's values. */
interface Seen {
  readonly fit: Fit;
  readonly equations: Equations;
  /** The arguments at each place; undefined for those that stand nowhere. */
  readonly given: readonly (readonly (number | undefined)[])[];
}

function seenBy(fit: Fit): Seen | undefined {
  const equations = Equations.of(fit.rule);
  if (!equations) return undefined;
  const { target, order, scales } = fit;
  const given = target.places.map((place) =>
    order.map((i, j) => {
      if (i < 0) return undefined;
      // What the formula does not use stays as it is on the sheet.
      return (place[i] ?? target.inputs[i]!.value) * scales[j]!;
    }),
  );
  return { fit, equations, given };
}

/**
 * The unit of the value in which it agrees with a way to compute it: with the sheet's own values and at most places about
 * them, since a case of the rule may end in between; undefined where it does not.
 */
function unitAgreeing({ fit }: Seen, valueAt: (place: number) => number, factor = 1): number | undefined {
  const { values } = fit.target;
  const first = valueAt(0) * factor;
  const out = fit.outs.find((one) => close(values[0]! * one, first));
  if (out === undefined) return undefined;
  let agreeing = 1;
  for (let k = 1; k < values.length; k++) {
    if (!Number.isFinite(values[k]!)) continue;
    if (close(values[k]! * out, valueAt(k) * factor)) agreeing++;
  }
  return agreeing >= leastPlaces ? out : undefined;
}

/** The match of a fit; what stands nowhere keeps its usual value, and without one there is none. */
function matchOf({ rule, target, order, scales, liking }: Fit, out: number): Match | undefined {
  const inputs = [...target.inputs];
  const whole = order.map((i, j) => {
    const { quantity } = rule.inputs[j]!;
    if (i >= 0) return i;
    return quantity.default === undefined
      ? -1
      : inputs.push({ label: undefined, value: quantity.default / scales[j]!, part: shownNumber(quantity.default) }) -
          1;
  });
  return whole.includes(-1) ? undefined : { rule, target: { ...target, inputs }, order: whole, scales, out, liking };
}

/** How a formula agrees with a changed rule at the drawn points of the rule. */
function agreementWith(match: Match, evaluate: (point: readonly number[]) => number): Agreement {
  const values = match.rule.points.map(evaluate);
  const sound = values.flatMap((value, k) => (Number.isFinite(value) ? [k] : []));
  const rule: Rule = {
    ...match.rule,
    points: sound.map((k) => match.rule.points[k]!),
    values: sound.map((k) => values[k]!),
  };
  return compareAll({ ...match, rule });
}

const shareOf = ({ agreeing, points }: Agreement): number => agreeing.filter(Boolean).length / Math.max(points, 1);

const effectOf = (match: Match): Pick<Difference, "effect"> => {
  const effect = match.target.value / valueBy(match) - 1;
  return Number.isFinite(effect) ? { effect } : {};
};

/** Whether a product has a number or a power of its own. */
const isSpecific = ({ constants, shapes }: Rule): boolean =>
  constants.length > 0 || shapes.some(({ power }) => !Number.isInteger(power));

/** Whether a formula's value is not far from the rule's. */
function isAbout(match: Match): boolean {
  const ratio = match.target.value / valueBy(match);
  return ratio > 0.5 && ratio < 2;
}

/** What labels must say of a formula that is a rule with a change: less than for one that agrees is too little. */
function isSpokenFor(match: Match, { named, resultNamed, resultBare, target }: Fit): boolean {
  const own = target.places[0]!.length;
  const backing = backingOf(match);
  if (backing.against > 0) return false;
  if (resultBare) return backing.everyday && isAbout(match) && (match.rule.form === "known by its form" || own > 3);
  if (match.rule.form === "known by its form") return named >= 0.6 * own && (resultNamed || backing.resultInUnit);
  // What any sheet has with other numbers, as w·L²/12.
  if (match.rule.particular && isProduct(match.rule) && !isSpecific(match.rule)) return false;
  if (isProduct(match.rule) && own > 3) return resultNamed && named >= 0.75 * own && backing.inUnits === own;
  if (isProduct(match.rule) || own < 3) return resultNamed && named === own;
  return (resultNamed || backing.resultInUnit) && named >= 0.75 * own;
}

/** The rule as it is, where the formula agrees about the sheet's values and in a good part of its range. */
function asItIs(seen: Seen): AsItIs | undefined {
  const { fit, given } = seen;
  if (fit.free.length > 0) return undefined;
  const out = unitAgreeing(seen, (k) => fit.rule.evaluate(given[k] as readonly number[]));
  const match = out === undefined ? undefined : matchOf(fit, out);
  if (!match || !isSpokenFor(match, fit)) return undefined;
  const agreement = compareAll(match);
  return shareOf(agreement) >= leastShare ? { match, agreement } : undefined;
}

/**
 * The formula agrees with the rule at other drawn inputs, and not with the sheet's values: a case of the rule is left out
 * that these need.
 */
function leftOutCase({ fit }: Seen): Near | undefined {
  if (fit.free.length > 0 || !fit.resultNamed) return undefined;
  for (const out of fit.outs) {
    const match = matchOf(fit, out);
    if (!match || !isSpokenFor(match, fit)) return undefined;
    const agreement = compareAll(match);
    // What only comes near it, as with a great age, is no case of the rule.
    if (shareOf(agreement) < leastElsewhere || agreement.largest > exact) continue;
    const says = `${whereItAgrees(match, agreement)}; the sheet's values lie outside that part`;
    return { match, agreement, difference: { kind: "case", says, ...effectOf(match) } };
  }
  return undefined;
}

/** Numbers typed in a formula that may be a quantity, each once. */
const typedIn = (target: Target): readonly number[] => {
  const numbers = target.program.open().filter(({ couldBeArgument }) => couldBeArgument);
  return [...new Set(numbers.map(({ value }) => Math.abs(value)))].slice(0, mostTyped);
};

interface Constant {
  readonly j: number;
  readonly typed: number;
  /** In the argument's unit. */
  readonly value: number;
}

/** What a typed number may be as an argument, in any unit; of plain numbers also one over it, as 0.87 for a factor of 1.15. */
function constantsFor({ rule }: Fit, j: number, typed: readonly number[]): readonly Constant[] {
  const { quantity } = rule.inputs[j]!;
  const scales = scalesOf(quantity).map(({ factor }) => factor);
  return typed.flatMap((number) =>
    (quantity.unit === "–" ? [number, 1 / number] : [number]).flatMap((own) =>
      scales.flatMap((scale): Constant[] => {
        const value = own * scale;
        const isUsual = outside(quantity, value) === undefined && !isUnusual(quantity, value);
        return isUsual ? [{ j, typed: number, value }] : [];
      }),
    ),
  );
}

/** Ways to give arguments a typed number: those that stand nowhere, up to two; else one that the formula leaves beside. */
function* waysOfTyped(fit: Fit): Generator<readonly Constant[]> {
  const typed = typedIn(fit.target);
  const [first, second, ...more] = fit.free;
  if (more.length > 0) return;
  if (first === undefined) {
    const own = fit.target.places[0]!.length;
    for (const [j, i] of fit.order.entries()) if (i >= own) for (const one of constantsFor(fit, j, typed)) yield [one];
    return;
  }
  for (const one of constantsFor(fit, first, typed)) {
    if (second === undefined) yield [one];
    else for (const other of constantsFor(fit, second, typed)) if (other.typed !== one.typed) yield [one, other];
  }
}

/** Whether an argument is a number that people fix for all of their work: one with a usual value, and a unit weight. */
export const isFixedByPeople = (quantity: Quantity): boolean =>
  quantity.default !== undefined || quantity.key === q.unitWeight.key;

/** Arguments are numbers typed inside the formula. */
function typedArguments(seen: Seen, { book }: Around): Near | undefined {
  const { fit, given } = seen;
  for (const constants of waysOfTyped(fit)) {
    const filled = (point: readonly (number | undefined)[]): readonly number[] => {
      const out = [...point];
      for (const { j, value } of constants) out[j] = value;
      return out as readonly number[];
    };
    const out = unitAgreeing(seen, (k) => fit.rule.evaluate(filled(given[k]!)));
    if (out === undefined) continue;
    const inputs = [...fit.target.inputs];
    const order = fit.order.map((i, j) => {
      const constant = constants.find((one) => one.j === j);
      if (i >= 0 || !constant) return i;
      const value = constant.value / fit.scales[j]!;
      return inputs.push({ label: undefined, value, part: shownNumber(constant.value) }) - 1;
    });
    const match: Match = { ...fit, target: { ...fit.target, inputs }, order, out };
    if (!isSpokenFor(match, fit)) continue;
    const agreement = agreementWith(match, (point) => fit.rule.evaluate(filled(point)));
    if (shareOf(agreement) < leastShare) continue;
    const says = constants.map((constant) => typedText(fit, constant, book));
    const besides = constants.every(({ j }) => fit.order[j]! >= 0);
    const difference = { kind: "typed", says: says.join("; "), ...(besides && effectOf(match)) };
    const isRule = constants.every(({ j }) => fit.order[j]! < 0 && isFixedByPeople(fit.rule.inputs[j]!.quantity));
    return { match, agreement, difference, ...(isRule && { isRule }) };
  }
  return undefined;
}

/** "constant typed inside: 195 for Ep (modulus of the steel) = 195 GPa; B6 holds 190 GPa" */
function typedText({ rule, order, target, scales }: Fit, { j, typed, value }: Constant, book: Book): string {
  const { quantity } = rule.inputs[j]!;
  const unit = quantity.unit === "–" ? "" : ` ${quantity.unit}`;
  const says = `constant typed inside: ${shownNumber(typed)} for ${shownName(quantity)} = ${shownNumber(value)}${unit}`;
  const cell = target.inputs[order[j]!];
  if (!cell) return says;
  return `${says}; ${inputText(book, cell, target.cell.sheet)} holds ${shownNumber(cell.value * scales[j]!)}${unit}`;
}

/** Two inputs of one unit stand in each other's place. */
function exchangedArguments(seen: Seen, { book }: Around): Near | undefined {
  const { fit, given } = seen;
  const { rule, order, target } = fit;
  if (fit.free.length > 0) return undefined;
  const own = target.shapes.length;
  for (let a = 0; a < order.length; a++)
    for (let b = a + 1; b < order.length; b++) {
      if (order[a]! >= own || order[b]! >= own) continue;
      if (rule.inputs[a]!.quantity.unit !== rule.inputs[b]!.quantity.unit) continue;
      const turned = <T>(list: readonly T[]): readonly T[] =>
        list.map((one, j) => (j === a ? list[b]! : j === b ? list[a]! : one));
      const out = unitAgreeing(seen, (k) => rule.evaluate(turned(given[k] as readonly number[])));
      const match = out === undefined ? undefined : matchOf(fit, out);
      if (!match || !isSpokenFor(match, fit)) continue;
      const agreement = agreementWith(match, (point) => rule.evaluate(turned(point)));
      if (shareOf(agreement) < leastShare) continue;
      const [one, two] = [a, b].map((j) => inputText(book, target.inputs[order[j]!]!, target.cell.sheet));
      const [first, second] = [a, b].map((j) => shownName(rule.inputs[j]!.quantity));
      const says = `${one!} and ${two!} are exchanged: by their labels ${one!} is ${first!} and ${two!} is ${second!}`;
      return { match, agreement, difference: { kind: "exchanged", says, ...effectOf(match) } };
    }
  return undefined;
}

/** A step of the rule, such as a value from a table, is a number typed inside the formula. */
function typedStep(seen: Seen): Near | undefined {
  const { fit, equations, given } = seen;
  const values = given.map((one) => equations.valuesAt(one));
  for (const typed of typedIn(fit.target))
    for (const step of equations.inner)
      for (const value of [typed, 1 / typed]) {
        const out = unitAgreeing(seen, (k) => equations.valueWith(values[k]!, step, () => value));
        const match = out === undefined ? undefined : matchOf(fit, out);
        if (!match || !isSpokenFor(match, fit)) continue;
        const agreement = agreementWith(match, (point) =>
          equations.valueWith(equations.valuesAt(point), step, () => value),
        );
        if (shareOf(agreement) < leastShare) continue;
        const declared = fit.rule.formula.steps[step]!;
        const own = fit.rule.stepsAt(match.order.map((i, j) => match.target.inputs[i]!.value * match.scales[j]!))?.[
          step
        ];
        const rest = typeof own === "number" ? `; the rule has ${shownNumber(own)} here` : "";
        const says = `constant typed inside: ${shownNumber(typed)} for ${symbol(declared.symbol)}${rest}`;
        return { match, agreement, difference: { kind: "constant", says, ...effectOf(match) } };
      }
  return undefined;
}

const symbol = (text: string): string => text.replace(/_/g, "");

/** A change in words. */
function changeText({ formula }: Rule, change: StepChange): string {
  const symbolOf = (name: string): string =>
    symbol(formula.params[name]?.symbol ?? formula.steps[name]?.symbol ?? name);
  const part = written(change.part, symbolOf);
  const around = written(change.around, symbolOf);
  const inside = around === part || around.length > 48 ? "" : ` in ${around}`;
  if (change.kind === "term") return `the term ${part} is missing${inside}`;
  if (change.kind === "sign") return `the term ${part} has the other sign${inside}`;
  if (change.kind === "factor") return `the factor ${part} is missing${inside}`;
  return `${written(change.instead!, symbolOf)} stands where the rule has ${part}`;
}

/** A change with the number that stands in place of what is missing; 1 where none does. */
function changeTold(rule: Rule, change: StepChange, instead: number): Pick<Difference, "kind" | "says"> {
  const says = changeText(rule, change);
  if (instead === 1) return { kind: kinds[change.kind], says };
  if (change.part.kind !== "number")
    return { kind: kinds[change.kind], says: `${says}; ${shownNumber(instead)} stands instead` };
  const own = change.part.value;
  // A number below the line is given as it was typed there.
  const apart = (value: number): number => Math.abs(Math.log(Math.abs(value / own)));
  const typed = apart(1 / instead) < apart(instead) ? 1 / instead : instead;
  return { kind: "constant", says: `constant typed inside: ${shownNumber(typed)}; the rule has ${shownNumber(own)}` };
}

const kinds: Readonly<Record<StepChange["kind"], string>> = {
  term: "term",
  sign: "term",
  factor: "factor",
  exponent: "exponent",
  function: "term",
};

/** One place of the rule's equations is otherwise. */
function oneChange(seen: Seen): Near | undefined {
  const { fit, equations, given } = seen;
  const values = given.map((one) => equations.valuesAt(one));
  const typed = typedIn(fit.target);
  const plain = equations.valueWith(values[0]!);
  for (const change of equations.changes) {
    const first = equations.valueWith(values[0]!, change.step, change.evaluate);
    if (!Number.isFinite(first) || first === 0 || close(first, plain)) continue;
    // What is missing may have a typed number in its place.
    const ratio = fit.target.values[0]! / first;
    const factors = change.kind === "factor" ? [1, ...typed, ...typed.map((v) => 1 / v)] : [1];
    for (const factor of factors) {
      if (!fit.outs.some((out) => close(ratio * out, factor))) continue;
      const valueAt = (k: number): number => equations.valueWith(values[k]!, change.step, change.evaluate);
      const out = unitAgreeing(seen, valueAt, factor);
      const match = out === undefined ? undefined : matchOf(fit, out);
      if (!match || !isSpokenFor(match, fit)) continue;
      const agreement = agreementWith(
        match,
        (point) => factor * equations.valueWith(equations.valuesAt(point), change.step, change.evaluate),
      );
      if (shareOf(agreement) < leastShare) continue;
      const difference = { ...changeTold(fit.rule, change, factor), ...effectOf(match) };
      return { match, agreement, difference };
    }
  }
  return undefined;
}

interface InPlaces {
  readonly value: number;
  /** Their places among the typed numbers. */
  readonly places: readonly number[];
}

/** Each typed number by itself, and all of the same value together. */
function inPlaces(numbers: readonly TypedNumber[]): readonly InPlaces[] {
  const alone = numbers.map(({ value }, at): InPlaces => ({ value, places: [at] }));
  const together = [...new Set(numbers.map(({ value }) => value))].map((value): InPlaces => ({
    value,
    places: numbers.flatMap((one, at) => (one.value === value ? [at] : [])),
  }));
  return [...alone, ...together.filter(({ places }) => places.length > 1)].filter(({ value }) => value !== 0);
}

/** How likely a number was meant: one of the rule's own, none at all, a whole one; powers of ten are hardly mistyped. */
function likelihood(rule: Rule, value: number, right: number): number {
  const isTen = Math.abs(Math.log10(Math.abs(value)) - Math.round(Math.log10(Math.abs(value)))) < 1e-12;
  const points = -Math.min(1, Math.abs(Math.log(Math.abs(right / value)))) / 2 - (isTen ? 4 : 0);
  if (rule.constants.some((own) => close(own, right))) return points + 2;
  if (close(right, 1)) return points + 1.5;
  return close(right * 1000, Math.round(right * 1000)) ? points + 1 : points;
}

/** A number typed in the formula is another than the rule's. */
function otherNumber(seen: Seen): Near | undefined {
  const { fit, given } = seen;
  const { target, rule } = fit;
  if (fit.free.length > 0) return undefined;
  const wanted = rule.evaluate(given[0] as readonly number[]);
  if (!Number.isFinite(wanted) || wanted === 0) return undefined;
  const numbers = inPlaces(target.program.open());
  const own = target.places[0]!;
  let best: (Near & { readonly likely: number }) | undefined;
  for (const outGiven of fit.outs) {
    if (Math.abs(Math.log(Math.abs((target.values[0]! * outGiven) / wanted))) > mostApart) continue;
    for (const { value, places } of numbers) {
      const put = (v: number | undefined): void => places.forEach((at) => target.program.change(at, v));
      const miss = (v: number): number => {
        put(v);
        const there = target.run(own);
        put(undefined);
        return (there * outGiven) / wanted - 1;
      };
      const right = rootNear(miss, value);
      if (right === undefined || Math.abs(right / value - 1) < tolerance) continue;
      const likely = likelihood(rule, value, right);
      if (best && likely <= best.likely) continue;
      put(right);
      const agrees = target.places.every((place, k) =>
        close(target.run(place) * outGiven, rule.evaluate(given[k] as readonly number[])),
      );
      const match = agrees ? matchOf(fit, outGiven) : undefined;
      const agreement = match && compareAll(match);
      put(undefined);
      if (!match || !agreement || shareOf(agreement) < leastShare || !isSpokenFor(match, fit)) continue;
      const isFactor = Math.abs(right - 1) < tolerance;
      const says = isFactor
        ? `a factor of ${shownNumber(value)} is typed in; the rule has none`
        : `constant typed inside: ${shownNumber(value)}; the rule has ${shownNumber(right)}`;
      const difference: Difference = { kind: isFactor ? "factor" : "constant", says, ...effectOf(match) };
      best = { match, agreement, difference, likely };
    }
  }
  return best;
}

const nearlyTheSame = Math.log(1.3);

/** Formula and rule are both a number times powers of the same inputs, the powers are others, and the values are about the same. */
function otherPowers(seen: Seen): Near | undefined {
  const { fit, given } = seen;
  const { target, rule, order } = fit;
  if (fit.free.length > 0 || order.some((i) => i >= target.shapes.length)) return undefined;
  const powers = order.map((i) => target.shapes[i]!.power);
  if (!isProduct(rule) || powers.includes(undefined)) return undefined;
  const others = powers.flatMap((power, j) => (Math.abs(power! - rule.shapes[j]!.power!) < 1e-6 ? [] : [j]));
  if (others.length === 0 || others.some((j) => powers[j]! * rule.shapes[j]!.power! <= 0)) return undefined;
  const wanted = rule.evaluate(given[0] as readonly number[]);
  const out = fit.outs.find((one) => Math.abs(Math.log((target.values[0]! * one) / wanted)) < nearlyTheSame);
  const match = out === undefined ? undefined : matchOf(fit, out);
  if (!match || !fit.resultNamed || fit.named < order.length || !isSpokenFor(match, fit)) return undefined;
  const says = others.map((j) => {
    const name = symbol(rule.inputs[j]!.quantity.symbol);
    return `${name} to the power ${shownNumber(powers[j]!)}; the rule has ${shownNumber(rule.shapes[j]!.power!)}`;
  });
  const agreement = { points: rule.points.length, agreeing: rule.points.map(() => false), largest: 0 };
  return { match, agreement, difference: { kind: "exponent", says: says.join("; "), ...effectOf(match) } };
}

const kept = new WeakMap<Target, { readonly library: Library; readonly seen: readonly Seen[] }>();
function allSeen(target: Target, library: Library, around: Around): readonly Seen[] {
  const before = kept.get(target);
  if (before?.library === library) return before.seen;
  const seen = fitsOf(target, library, around).flatMap((fit) => seenBy(fit) ?? []);
  kept.set(target, { library, seen });
  return seen;
}

/** A rule that labels speak for and that agrees about the sheet's values, in a part of its range. */
export function agreeingInPart(target: Target, library: Library, around: Around): AsItIs | undefined {
  for (const seen of allSeen(target, library, around)) {
    if (seen.fit.resultBare) continue;
    const found = asItIs(seen);
    if (found) return found;
  }
  return undefined;
}

const inTheEquation = [typedStep, oneChange, otherNumber];
const inAnyWay = [leftOutCase, exchangedArguments, typedArguments, ...inTheEquation, otherPowers];

const effectSize = ({ difference: { effect } }: Near): number => Math.abs(Math.log(Math.abs(1 + (effect ?? 1e9))));

const isOtherChoice = ({ rule, order, scales }: Match, fit: Fit): boolean =>
  rule !== fit.rule &&
  rule.formula.id === fit.rule.formula.id &&
  rule.particular === fit.rule.particular &&
  order.join() === fit.order.join() &&
  scales.join() === fit.scales.join();

/** A rule that labels speak for and that one change makes the formula, the simplest kind of change first. */
export function changedRule(target: Target, library: Library, around: Around): Near | undefined {
  const all = allSeen(target, library, around);
  const bare = all[0]?.fit.resultBare ?? false;
  for (const looked of bare ? inTheEquation : inAnyWay) {
    let best: Near | undefined;
    for (const seen of all) {
      // With another choice the same function of the same cells may be nearer.
      if (best && !isOtherChoice(best.match, seen.fit)) continue;
      const found = looked(seen, around);
      if (found && (!best || effectSize(found) < effectSize(best) - 1e-9)) best = found;
    }
    if (best) return best;
  }
  return undefined;
}

/** A formula as one before it of the same pattern: the same input is the same argument, whether or not a label says so. */
export function changedAlike({ rule, order, scales, out }: Match, target: Target): Near | undefined {
  if (order.some((i) => i >= target.inputs.length)) return undefined;
  const given = { rule, target, order, scales, outs: [out], free: [], named: order.length, liking: 0 };
  const seen = seenBy({ ...given, resultNamed: false, resultBare: true });
  if (!seen) return undefined;
  for (const looked of inTheEquation) {
    const found = looked(seen);
    if (found) return found;
  }
  return undefined;
}
