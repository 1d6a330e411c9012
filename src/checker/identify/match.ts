import { outside, type Quantity } from "../../core/index.ts";
import { everydayRange } from "./draws.ts";
import type { Rule } from "./rules.ts";
import { scalesOf } from "./scales.ts";
import { liking, supportOf, type Support } from "./support.ts";
import type { Target, TargetInput } from "./target.ts";

/** Which input of a formula is which argument of a rule, and in which units: formula · unit of the value = rule. */
export interface Match {
  readonly rule: Rule;
  readonly target: Target;
  /** For each input of the rule the number of the formula's. */
  readonly order: readonly number[];
  /** What one of the formula's unit is in the rule's; below 0 where the sign is the other way. */
  readonly scales: readonly number[];
  /** The same of the value. */
  readonly out: number;
  /** How well labels and everyday values agree with it. */
  readonly liking: number;
  /** An input and the value are of another kind than the rule's, which holds for them too: their unit. */
  readonly other?: { readonly j: number; readonly unit: string };
}

const tolerance = 1e-9;
const samePower = 1e-6;
/** An everyday range is taken so many times wider. */
const widened = 5;
const mostFound = 400;
const mostTried = 8_000;
/** Where labels tell what to try first. */
const mostTriedByLabels = 2_000;
const mostTriedOnceFound = 600;
/** So many inputs may stand in another unit than their labels say. */
const mostDeparted = 1;

const close = (a: number, b: number): boolean => Math.abs(a - b) <= tolerance * Math.max(Math.abs(a), Math.abs(b));

export const supportFor = (input: TargetInput, quantity: Quantity): Support => supportOf(input.label, quantity);

/** The units in which a value can be a quantity: it is allowed there, and not far from everyday. */
const scalesKnown = new WeakMap<TargetInput, Map<Quantity, readonly number[]>>();
export function scalesFor(input: TargetInput, quantity: Quantity, rare: boolean): readonly number[] {
  const known = scalesKnown.get(input) ?? new Map<Quantity, readonly number[]>();
  scalesKnown.set(input, known);
  const before = known.get(quantity);
  if (before) return before;
  const { unit } = supportFor(input, quantity);
  const said = (scale: number): number => Number(unit !== undefined && Math.abs(scale / unit - 1) < 1e-9);
  const likely = likelyScales(input, quantity, rare);
  // A label in another unit may say what the formula leaves out: then the value is taken as it is, however odd.
  const asIs = unit !== undefined && !likely.includes(1) ? [1] : [];
  const made = [...likely, ...asIs].sort((a, b) => said(b) - said(a));
  known.set(quantity, made);
  return made;
}

function likelyScales(input: TargetInput, quantity: Quantity, rare: boolean): readonly number[] {
  const factors = scalesOf(quantity, rare).map(({ factor }) => factor);
  const { value } = input;
  if (value === 0) return [supportFor(input, quantity).unit ?? 1];
  const [low, high] = everydayRange(quantity);
  const least = low > 0 ? low / widened : (quantity.smallest ?? Math.max(Math.abs(low), high) * 1e-5) / widened;
  const isSigned = low < 0;
  const fits = (factor: number): boolean => {
    const there = value * factor;
    if (outside(quantity, there) !== undefined) return false;
    const size = Math.abs(there);
    return size >= (isSigned ? least * 1e-2 : least) && size <= Math.max(high, -low) * widened;
  };
  const right = factors.filter(fits);
  const turned = factors.map((f) => -f).filter((f) => (isSigned || value < 0) && fits(f));
  const all = [...right, ...turned];
  return all.length > 0 ? all : factors.filter((f) => outside(quantity, value * f) === undefined);
}

const allowedFor = [new WeakMap<Rule, readonly number[]>(), new WeakMap<Rule, readonly number[]>()] as const;

/** Every factor that units of value and of inputs with a power can bring, as logarithms in order. */
function allowedFactors(rule: Rule, rare: boolean): readonly number[] {
  const known = allowedFor[rare ? 1 : 0];
  const before = known.get(rule);
  if (before) return before;
  let logs = new Set(scalesOf(rule.result, rare).map(({ factor }) => rounded(-Math.log(factor))));
  rule.inputs.forEach(({ quantity }, j) => {
    const { power } = rule.shapes[j]!;
    if (power === undefined) return;
    const next = new Set<number>();
    for (const log of logs)
      for (const { factor } of scalesOf(quantity, rare)) next.add(rounded(log + power * Math.log(factor)));
    logs = next;
  });
  const sorted = [...logs].sort((a, b) => a - b);
  known.set(rule, sorted);
  return sorted;
}
const rounded = (log: number): number => Math.round(log * 1e10) / 1e10;

/** The allowed factor nearest to one, as a logarithm. */
export function nearestFactor(rule: Rule, target: Target, factor: number): number {
  const logs = allowedFactors(rule, target.rareUnits);
  const wanted = Math.log(Math.abs(factor));
  let [low, high] = [0, logs.length - 1];
  while (high - low > 1) {
    const middle = (low + high) >> 1;
    if (logs[middle]! <= wanted) low = middle;
    else high = middle;
  }
  return Math.abs(logs[low]! - wanted) <= Math.abs(logs[high]! - wanted) ? logs[low]! : logs[high]!;
}

const isAllowed = (rule: Rule, target: Target, factor: number): boolean =>
  Number.isFinite(factor) &&
  factor !== 0 &&
  Math.abs(nearestFactor(rule, target, factor) - Math.log(Math.abs(factor))) < 4 * tolerance;

/** Ways of matching that are looser than agreement. */
interface Looseness {
  /** Any factor between formula and rule. */
  readonly anyFactor?: true;
}

/** A match before units of inputs with a power are settled. */
interface RawMatch {
  readonly order: readonly number[];
  /** Of inputs with a power 1. */
  readonly scales: readonly number[];
  /** Formula over rule. */
  readonly factor: number;
}

/** Every assignment of inputs and units in which a formula agrees with a rule about the sheet's own values. */
export function rawMatches(rule: Rule, target: Target, loose: Looseness = {}): readonly RawMatch[] {
  const count = rule.inputs.length;
  if (target.inputs.length !== count || target.effort.left <= 0) return [];
  const groups: { readonly power: number; readonly inputs: number[] }[] = [];
  const plain: number[] = [];
  rule.shapes.forEach(({ power }, j) => {
    if (power === undefined) return void plain.push(j);
    const same = groups.find((g) => Math.abs(g.power - power) < samePower);
    if (same) same.inputs.push(j);
    else groups.push({ power, inputs: [j] });
  });
  const groupOf = target.shapes.map(({ power }) =>
    power === undefined ? -1 : groups.findIndex((group) => Math.abs(power - group.power) <= samePower),
  );
  // How many inputs with a group's power are more than the group takes: they must be something else.
  const spare = groups.map(({ inputs }, g) => groupOf.filter((own) => own === g).length - inputs.length);
  if (spare.some((count) => count < 0)) return [];
  // Which input can be which argument by its shape; only then by its units, which takes longer.
  const shaped = plain.map((j) => {
    const wanted = rule.shapes[j]!;
    return target.inputs.map((_, i) => {
      if (groupOf[i]! >= 0 && spare[groupOf[i]!] === 0) return false;
      const own = target.shapes[i]!;
      if ((own.flags & wanted.flags) !== wanted.flags) return false;
      // What rises wherever the rule was tried does not fall elsewhere.
      if (target.directions[i]! * rule.directions[j]! < 0) return false;
      // A shape that the rule shows nowhere; none at all may be a limit that is crossed.
      return own.flags === 0 || rule.seen[j]!.has(target.shapeKeys[i]!);
    });
  });
  if (shaped.some((of) => !of.includes(true))) return [];
  // A power that the rule has nowhere: no assignment can agree.
  const powered = target.shapes.filter(({ power }) => power !== undefined).length;
  if (groups.reduce((sum, { inputs }) => sum + inputs.length, 0) > powered) return [];
  const others = plain.map((j, n) => {
    const { quantity } = rule.inputs[j]!;
    const scales = target.inputs.map((input, i) => (shaped[n]![i] ? scalesFor(input, quantity, target.rareUnits) : []));
    // What labels speak for is tried first, so that little is tried where they are right.
    const likely = target.inputs
      .flatMap((input, i) => (scales[i]!.length > 0 ? [{ i, points: bestLiking(input, quantity) }] : []))
      .sort((a, b) => b.points - a.points)
      .map(({ i }) => i);
    return { j, scales, likely };
  });
  if (others.some(({ likely }) => likely.length === 0)) return [];
  // Arguments that few inputs can be come first: most wrong ways end early.
  others.sort((a, b) => a.likely.length - b.likely.length);
  const most = target.labelled ? mostTriedByLabels : mostTried;
  const found: RawMatch[] = [];
  const order = new Array<number>(count).fill(-1);
  const scales = new Array<number>(count).fill(1);
  const used = new Array<boolean>(count).fill(false);
  const reference = rule.points[0]!;
  const y = new Float64Array(count);
  let tried = 0;

  const factorAt = (k: number): number => {
    const place = target.places[k]!;
    let by = 1;
    for (let j = 0; j < count; j++) {
      const x = place[order[j]!]!;
      const { power } = rule.shapes[j]!;
      if (power === undefined) y[j] = x * scales[j]!;
      else {
        y[j] = reference[j]!;
        by *= (x / reference[j]!) ** power;
      }
    }
    return target.values[k]! / (rule.evaluate(y) * by);
  };

  const agrees = (): number | undefined => {
    tried++;
    const factor = factorAt(0);
    if (loose.anyFactor ? !Number.isFinite(factor) || factor === 0 : !isAllowed(rule, target, factor)) return undefined;
    for (let k = 1; k < target.places.length; k++) {
      const here = factorAt(k);
      if (!close(here, factor) && !bothMissing(k)) return undefined;
    }
    return factor;
  };
  const bothMissing = (k: number): boolean => !Number.isFinite(target.values[k]!) || target.values[k] === 0;

  const settleGroups = (): void => {
    const next = groups.map(() => 0);
    for (let i = 0; i < count; i++) {
      if (used[i]) continue;
      const g = groupOf[i]!;
      order[groups[g]!.inputs[next[g]!++]!] = i;
    }
  };

  const assign = (n: number, departed: number): void => {
    if (found.length >= mostFound || tried >= most || (found.length > 0 && tried >= mostTriedOnceFound)) return;
    if (n === others.length) {
      settleGroups();
      const factor = agrees();
      if (factor !== undefined) found.push({ order: [...order], scales: [...scales], factor });
      return;
    }
    const { j, likely, scales: units } = others[n]!;
    for (const i of likely) {
      if (used[i]) continue;
      const g = groupOf[i]!;
      if (g >= 0 && spare[g] === 0) continue;
      if (g >= 0) spare[g]!--;
      used[i] = true;
      order[j] = i;
      const { unit } = supportFor(target.inputs[i]!, rule.inputs[j]!.quantity);
      for (const scale of units[i]!) {
        const isOther = unit !== undefined && !close(scale, unit);
        if (isOther && departed >= mostDeparted) continue;
        scales[j] = scale;
        assign(n + 1, departed + Number(isOther));
      }
      used[i] = false;
      if (g >= 0) spare[g]!++;
    }
    scales[j] = 1;
  };
  assign(0, 0);
  target.effort.left -= tried;
  return found;
}

/** All orders of a list. */
function* orders(list: readonly number[]): Generator<readonly number[]> {
  if (list.length < 2) {
    yield list;
    return;
  }
  for (let i = 0; i < list.length; i++)
    for (const rest of orders([...list.slice(0, i), ...list.slice(i + 1)])) yield [list[i]!, ...rest];
}

/** The best way to share the inputs of equal power among the arguments of that power, by their labels. */
function sharedOut(rule: Rule, target: Target, order: readonly number[]): readonly number[] {
  const out = [...order];
  const groups = new Map<number, number[]>();
  rule.shapes.forEach(({ power }, j) => {
    if (power !== undefined) groups.set(power, [...(groups.get(power) ?? []), j]);
  });
  for (const inputs of groups.values()) {
    if (inputs.length < 2 || inputs.length > 6) continue;
    const own = inputs.map((j) => order[j]!);
    let best: readonly number[] = own;
    let most = -Infinity;
    for (const way of orders(own)) {
      const sum = way.reduce((s, i, n) => s + bestLiking(target.inputs[i]!, rule.inputs[inputs[n]!]!.quantity), 0);
      if (sum > most + 1e-9) [most, best] = [sum, way];
    }
    inputs.forEach((j, n) => (out[j] = best[n]!));
  }
  return out;
}

const likings = new WeakMap<TargetInput, Map<Quantity, number>>();
function bestLiking(input: TargetInput, quantity: Quantity): number {
  const known = likings.get(input) ?? new Map<Quantity, number>();
  likings.set(input, known);
  const before = known.get(quantity);
  if (before !== undefined) return before;
  const made = likingAtBest(input, quantity);
  known.set(quantity, made);
  return made;
}

function likingAtBest(input: TargetInput, quantity: Quantity): number {
  const support = supportFor(input, quantity);
  return Math.max(...scalesOf(quantity, true).map(({ factor }) => liking(support, quantity, input.value, factor)));
}

/** Units of the value and of the inputs with a power that give the factor found; undefined where none do. */
function unitsGiving(rule: Rule, target: Target, order: readonly number[], raw: RawMatch) {
  const powered = rule.shapes.flatMap(({ power }, j) => (power !== undefined && power !== 0 ? [{ j, power }] : []));
  const resultSupport = supportOf(target.label, rule.result);
  const choices = powered.map(({ j, power }) => {
    const { quantity } = rule.inputs[j]!;
    const input = target.inputs[order[j]!]!;
    const support = supportFor(input, quantity);
    return scalesOf(quantity, target.rareUnits)
      .map(({ factor }) => ({
        factor,
        log: power * Math.log(factor),
        points: liking(support, quantity, input.value, factor),
      }))
      .sort((a, b) => b.points - a.points)
      .slice(0, 6);
  });
  const outs = scalesOf(rule.result, target.rareUnits).map(({ factor }) => ({
    factor,
    log: -Math.log(factor),
    points: liking(resultSupport, rule.result, target.value, factor),
  }));
  const wanted = Math.log(Math.abs(raw.factor));
  let best: { readonly scales: readonly number[]; readonly out: number; readonly points: number } | undefined;
  const chosen: number[] = [];
  const walk = (n: number, log: number, points: number): void => {
    if (n === choices.length) {
      for (const out of outs)
        if (Math.abs(log + out.log - wanted) < 4 * tolerance && points + out.points > (best?.points ?? -Infinity))
          best = { scales: [...chosen], out: out.factor, points: points + out.points };
      return;
    }
    for (const { factor, log: own, points: more } of choices[n]!) {
      chosen[n] = factor;
      walk(n + 1, log + own, points + more);
    }
  };
  walk(0, 0, 0);
  if (!best) return undefined;
  const scales = [...raw.scales];
  powered.forEach(({ j }, n) => (scales[j] = best!.scales[n]!));
  return { scales, out: best.out * Math.sign(raw.factor), points: best.points };
}

/** A raw match with its units settled; undefined where no units give its factor. */
export function settled(rule: Rule, target: Target, raw: RawMatch): Match | undefined {
  const order = sharedOut(rule, target, raw.order);
  const units = unitsGiving(rule, target, order, raw);
  if (!units) return undefined;
  let points = units.points;
  rule.inputs.forEach(({ quantity }, j) => {
    if (rule.shapes[j]!.power !== undefined) return;
    const input = target.inputs[order[j]!]!;
    points += liking(supportFor(input, quantity), quantity, input.value, units.scales[j]!);
  });
  if (units.out < 0) points -= 1;
  return { rule, target, order, scales: units.scales, out: units.out, liking: points };
}

/** The matches of a rule in the order in which labels and everyday values speak for them. */
export function matches(rule: Rule, target: Target, loose: Looseness = {}): readonly Match[] {
  return rawMatches(rule, target, loose)
    .flatMap((raw) => settled(rule, target, raw) ?? [])
    .sort((a, b) => b.liking - a.liking);
}

/** How formula and rule compare at the drawn points of the rule. */
export interface Agreement {
  readonly points: number;
  readonly agreeing: readonly boolean[];
  /** The largest relative difference where they agree. */
  readonly largest: number;
}

/** Puts the drawn inputs of the rule into the formula, in its units. */
export function compareAll({ rule, target, order, scales, out }: Match): Agreement {
  const x = new Float64Array(target.inputs.length);
  const sizes = rule.values.map((v) => Math.abs(v)).sort((a, b) => a - b);
  // Where terms cancel, what is left of them cannot agree to more digits than they do.
  const small = 1e-4 * sizes[sizes.length >> 1]!;
  let largest = 0;
  const agreeing = rule.points.map((point, k) => {
    order.forEach((i, j) => (x[i] = point[j]! / scales[j]!));
    const there = target.run(x) * out;
    const wanted = rule.values[k]!;
    const difference = Math.abs(there - wanted) / Math.max(Math.abs(wanted), Math.abs(there), small, 1e-300);
    if (!(difference <= tolerance)) return wanted === there;
    largest = Math.max(largest, difference);
    return true;
  });
  return { points: agreeing.length, agreeing, largest };
}
