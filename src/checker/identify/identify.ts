import { a1, patternOf, type Book, type FormulaCell, type Place } from "../../cells/index.ts";
import { outside, reasonOf } from "../../core/index.ts";
import { agreeingInPart, changedAlike, type Near } from "./changed.ts";
import { cutsOf, cutsWithPart, wholeCut, type Cut } from "./cuts.ts";
import { couldBeBacked, heldForOther, isBacked, isNamed, isProduct } from "./evidence.ts";
import type { Finding, Rulefound } from "./finding.ts";
import type { Around } from "./fits.ts";
import { found } from "./found.ts";
import { Labels } from "./labelled.ts";
import { compareAll, matches, rawMatches, type Agreement, type Match } from "./match.ts";
import { offeredFormula } from "./offer.ts";
import { callsOurs } from "./ours.ts";
import { libraryOfRules, type Form, type Library, type Rule } from "./rules.ts";
import { saidDepartures } from "./said.ts";
import { leftOut, whereItAgrees } from "./range.ts";
import { rangeOf, searchedDepartures, type SearchedDeparture } from "./searched.ts";
import { supportOf } from "./support.ts";
import { Effort, targetOf, type Target } from "./target.ts";

interface Exact {
  readonly match: Match;
  readonly agreement: Agreement;
  readonly all: readonly Match[];
  /** Where it agrees, if not everywhere. */
  readonly range?: string;
}

/** What the search for agreement gives for one way to look at a formula. */
interface Searched {
  /** Rules that agree at every drawn point and may be named, best first. */
  readonly exact: readonly Exact[];
  /** Rules that agree about the sheet's own values, and elsewhere not throughout. */
  readonly partly: readonly Exact[];
  /** Functions that it may be, though much else is alike. */
  readonly possible: readonly string[];
}

type Told = Pick<Finding, "verdict" | "found" | "because" | "possibly">;

/** What an earlier formula of the same pattern was: agreement with a rule, or a departure from one. */
interface Before {
  readonly match: Match;
  /** Rules that agree as well, with every way to share out the inputs. */
  readonly exact?: readonly Exact[];
  readonly departure?: SearchedDeparture;
  /** The units beside the formula and its inputs there. */
  readonly units: string;
}

const notFound =
  "no agreement with a function was found; that is a normal answer and does not say that the library has no such rule";
const rank: Readonly<Record<Form, number>> = { "known by its form": 2, own: 1, common: 0 };
const mostCompared = 3;
const mostForNear = 4;
const mostPossible = 5;
const mostEffort = 120_000;

/** Identifies formulas of a book, one at a time. */
export class Identifier {
  readonly #labels: Labels;
  readonly #around: Around;
  readonly #library: Library;
  /** By the pattern of a formula and of those behind it: what it was found to be, so that a column filled down is searched once. */
  readonly #before = new Map<string, Before>();
  /** The same of what is unknown, which is so only with the same labels beside the cells. */
  readonly #unknown = new Map<string, Told>();
  readonly #patterns = new Map<number, string>();

  constructor(private readonly book: Book) {
    this.#labels = new Labels(book);
    this.#around = { book, labels: this.#labels };
    this.#library = withoutStacks(libraryOfRules);
  }

  /** Every cell of a sheet with a formula. */
  formulasOf(sheet: string): readonly Place[] {
    const number = this.book.sheetNumber(sheet);
    return [...this.book.formulas.cells.values()]
      .filter((cell) => cell.sheet === number)
      .sort((a, b) => a.key - b.key)
      .map(({ row, column }) => ({ sheet, row, column }));
  }

  /** Throws where the cell holds no formula; any other fault on the way is a finding of its own. */
  identify(place: Place): Finding {
    return withoutStacks(() => this.#identify(place));
  }

  #identify(place: Place): Finding {
    const cell = this.book.formulas.cells.get(this.book.keyOf(place));
    if (!cell) throw new Error(`${a1(place)} holds no formula`);
    const content = this.book.content(cell.sheet, cell.row, cell.column);
    const label = this.#labels.of(cell.key);
    const about = {
      place,
      formula: cell.formula,
      label: label ? [label.description, label.symbol].filter(Boolean).join(", ") : "",
      value: content.value,
    };
    try {
      const plain = this.#plain(cell);
      if (plain !== undefined) return { ...about, verdict: "unknown", because: plain };
      return { ...about, ...this.#searched(cell) };
    } catch (error) {
      // A fault of the library with values that nobody thought of: it is told, and the other formulas are looked at.
      return { ...about, verdict: "failed", because: `could not be looked at: ${reasonOf(error)}` };
    }
  }

  /** Why there is nothing to look for. */
  #plain(cell: FormulaCell): string | undefined {
    if (callsOurs(cell.formula)) return "calls a function of the library: Trace shows it";
    if (cell.unfollowable !== undefined) return `cannot be followed: ${cell.unfollowable}`;
    if (cell.reads.length === 0 && cell.ranges.length === 0) return "refers to no cell";
    const { value } = this.book.content(cell.sheet, cell.row, cell.column);
    if (typeof value !== "number") return "gives no number";
    if (/^=?\+?[$A-Za-z0-9!'. ]+$/.test(cell.formula) && cell.reads.length === 1) return "repeats another cell";
    return undefined;
  }

  #searched(cell: FormulaCell): Told {
    const pattern = this.#patternBehind(cell);
    const before = this.#before.get(pattern);
    const cuts = cutsOf(this.book, cell);
    const again = before && this.#again(cell, cuts, before);
    const { labels, units } = this.#labelsOf(cell);
    // Where other units stand beside it, a departure may come from those of the formula before alone.
    if (again && (again.verdict === "identified" || before.units === units)) return again;
    const labelled = `${pattern}\n${labels}`;
    const unknown = this.#unknown.get(labelled);
    if (unknown) return unknown;
    const told = this.#searchedAnew(cell, cuts, (found) => this.#before.set(pattern, { ...found, units }));
    if (!told.found) this.#unknown.set(labelled, told);
    return told;
  }

  /** What stands beside a formula and the cells that it comes from. */
  #labelsOf(cell: FormulaCell): { readonly labels: string; readonly units: string } {
    const cut = wholeCut(this.book, cell);
    const all = [cell.key, ...(cut?.inputs ?? [])].map((key) => {
      const { description = "", symbol = "", unit = "" } = this.#labels.of(key) ?? {};
      return [description, symbol, unit] as const;
    });
    return { labels: JSON.stringify(all), units: JSON.stringify(all.map(([, , unit]) => unit)) };
  }

  /** A formula and those behind it as they are filled down. */
  #patternBehind(cell: FormulaCell): string {
    return (wholeCut(this.book, cell)?.steps ?? [cell]).map((step) => this.#patternOf(step)).join("\n");
  }

  #patternOf({ key, formula, row, column }: FormulaCell): string {
    const known = this.#patterns.get(key);
    if (known !== undefined) return known;
    const made = patternOf(formula, row, column);
    this.#patterns.set(key, made);
    return made;
  }

  /** A formula like one before: the same rule is tried alone, and what was not recognised is not again. */
  #again(
    cell: FormulaCell,
    cuts: readonly Cut[],
    { match, exact: before = [], departure }: Omit<Before, "units">,
  ): Told | undefined {
    const { part, inputs } = match.target.cut;
    const like = part ? cutsWithPart(this.book, cell) : cuts;
    for (const cut of like) {
      if (cut.inputs.length !== inputs.length) continue;
      const target = targetOf(this.book, cell, cut, this.#labels, new Effort());
      if (departure) {
        const near =
          target && (nearest(departure, [target], libraryOf(match.rule), this.#around) ?? changedAlike(match, target));
        if (near) return this.#toldNear(near);
        continue;
      }
      const same = target && sameAs(match, target);
      if (same && target) {
        const ways = before.find((one) => one.match === match)?.all.map((way) => (way === match ? same.match : way));
        const best = { ...same, all: ways ?? same.all };
        return this.#told(best, [best, ...before.filter((one) => one.match !== match)]);
      }
      const exact = target && this.#exact(target, [match.rule]);
      const best =
        exact?.exact[0] ?? (target && this.#agreeingInPart([target], libraryOf(match.rule))) ?? exact?.partly[0];
      if (best) return this.#told(best, [best]);
    }
    return undefined;
  }

  #searchedAnew(cell: FormulaCell, cuts: readonly Cut[], keep: (found: Omit<Before, "units">) => void): Told {
    const targets: Target[] = [];
    let spent = 0;
    const partly: Exact[] = [];
    const possible = new Set<string>();
    let best: Exact | undefined;
    let others: readonly Exact[] = [];
    for (const cut of this.#cuts(cell, cuts)) {
      if (spent >= mostEffort) break;
      const effort = new Effort();
      const target = targetOf(this.book, cell, cut, this.#labels, effort);
      if (!target) continue;
      targets.push(target);
      const searched = this.#exact(target);
      spent += effort.most - effort.left;
      const { exact } = searched;
      partly.push(...searched.partly);
      for (const id of searched.possible) possible.add(id);
      if (exact[0] && (!best || better(exact[0], best))) [best, others] = [exact[0], exact];
      if (best && rank[best.match.rule.form] === 2) break;
    }
    if (best) {
      keep({ match: best.match, exact: others });
      return this.#told(best, others);
    }
    const spoken = this.#agreeingInPart(targets.slice(0, mostForNear));
    if (spoken) {
      keep({ match: spoken.match });
      return this.#told(spoken, [spoken]);
    }
    const part = partly.sort((a, b) => (better(a, b) ? -1 : 1)).find((e) => e.range !== undefined);
    if (part) {
      keep({ match: part.match });
      return this.#told(part, [part]);
    }
    const near = this.#near(targets.slice(0, mostForNear));
    if (near) {
      keep(near);
      return this.#toldNear(near);
    }
    if (targets.length === 0) return { verdict: "unknown", because: "gives no number about the sheet's own values" };
    if (possible.size === 0) return { verdict: "unknown", because: notFound };
    return {
      verdict: "unknown",
      because: "what it computes is too common to name a function without labels and units that say so",
      possibly: [...possible].slice(0, mostPossible),
    };
  }

  /** Ways to look at a formula, those of whole cells first. */
  *#cuts(cell: FormulaCell, cuts: readonly Cut[]): Generator<Cut> {
    yield* cuts;
    yield* cutsWithPart(this.book, cell);
  }

  #exact(target: Target, rules = this.#library.rules.get(target.inputs.length) ?? []): Searched {
    const exact: Exact[] = [];
    const partly: Exact[] = [];
    const possible: string[] = [];
    for (const rule of spokenOfFirst(rules, target)) {
      if (!couldBeBacked(rule, target)) {
        if (isProduct(rule) && !target.cut.part && rawMatches(rule, target).length > 0) possible.push(rule.formula.id);
        continue;
      }
      const all = matches(rule, target);
      const named = all.filter((match) => isBacked(match));
      if (all.length > 0 && named.length === 0) possible.push(rule.formula.id);
      let nearest: Exact | undefined;
      for (const match of named.slice(0, mostCompared)) {
        const agreement = compareAll(match);
        const range = rangeOf(match, agreement);
        if (range !== undefined) nearest ??= { match, agreement, all, range };
        if (!agreement.agreeing.every(Boolean)) continue;
        exact.push({ match, agreement, all });
        nearest = undefined;
        break;
      }
      if (nearest && exact.at(-1)?.match.rule !== rule) partly.push(nearest);
    }
    exact.sort((a, b) => (better(a, b) ? -1 : 1));
    return { exact, partly, possible };
  }

  #told(told: Exact, exact: readonly Exact[]): Pick<Finding, "verdict" | "found"> {
    const best = { ...told, match: asItStands(told.match) };
    const { match, agreement } = best;
    const { id } = match.rule.formula;
    const others = [...new Set(exact.map((e) => e.match.rule.formula.id))].filter((other) => other !== id);
    const open = openQuestions(best, exact, this.#library);
    // A rule without one of its cases is another rule, also where the sheet's values do not need the case.
    const missing = leftOut(match, agreement, best.range);
    const given = { book: this.book, labels: this.#labels, library: this.#library, match };
    for (const departure of saidDepartures) {
      const said = departure.find(given);
      if (!said) continue;
      const { meant, ...difference } = said;
      const offered = meant && offeredFormula(this.book, meant);
      return {
        verdict: "nearly",
        found: found(this.book, match, agreement, [difference, ...(missing ? [missing] : [])], {
          others,
          open,
          ...(offered !== undefined && { offered }),
        }),
      };
    }
    const verdict = missing ? "nearly" : "identified";
    return { verdict, found: found(this.book, match, agreement, missing ? [missing] : [], { others, open }) };
  }

  #toldNear({ match, agreement, difference, isRule }: Near): Told {
    if (isRule) {
      const open = [difference.says];
      const missing = leftOut(match, agreement);
      const verdict = missing ? "nearly" : "identified";
      return { verdict, found: found(this.book, match, agreement, missing ? [missing] : [], { open }) };
    }
    return { verdict: "nearly", found: found(this.book, match, agreement, [difference]) };
  }

  /** A rule that labels speak for, in a part of its range. */
  #agreeingInPart(targets: readonly Target[], library = this.#library): Exact | undefined {
    for (const target of targets) {
      const found = agreeingInPart(target, library, this.#around);
      if (!found) continue;
      const { match, agreement } = found;
      const isWhole = agreement.agreeing.every(Boolean);
      return { match, agreement, all: [match], ...(!isWhole && { range: whereItAgrees(match, agreement) }) };
    }
    return undefined;
  }

  #near(targets: readonly Target[]): (Near & Pick<Before, "departure">) | undefined {
    for (const departure of searchedDepartures) {
      const near = nearest(departure, targets, this.#library, this.#around);
      if (near) return { ...near, departure };
    }
    return undefined;
  }
}

/**
 * Inputs that a function refuses are an everyday thing here: where the engine notes for each refusal how it came to it,
 * that takes longer than the computing.
 */
function withoutStacks<T>(work: () => T): T {
  const limit = Error.stackTraceLimit;
  Error.stackTraceLimit = 0;
  try {
    return work();
  } finally {
    Error.stackTraceLimit = limit;
  }
}

/** Rules whose result the formula's label names before the others, so that effort is spent there. */
function spokenOfFirst(rules: readonly Rule[], { label }: Target): readonly Rule[] {
  const named = new Set(rules.filter(({ result }) => isNamed(supportOf(label, result))));
  return [...named, ...rules.filter((rule) => !named.has(rule))];
}

/** A formula as one before it of the same pattern, input for input and in the same units, where it agrees everywhere. */
function sameAs({ rule, order, scales, out, liking }: Match, target: Target): Exact | undefined {
  if (order.some((i) => i >= target.inputs.length)) return undefined;
  const match: Match = { rule, target, order, scales, out, liking };
  // What stands beside it may be something else there.
  if (!isBacked(match)) return undefined;
  const agreement = compareAll(match);
  return agreement.agreeing.every(Boolean) ? { match, agreement, all: [match] } : undefined;
}

/** A match of a rule for stresses with forces: nothing has to be converted, since the value goes with that input. */
function asItStands(match: Match): Match {
  const j = heldForOther(match);
  const input = j === undefined ? undefined : match.target.inputs[match.order[j]!]!;
  const unit = input?.label?.unit;
  if (j === undefined || !input || unit === undefined) return match;
  const out = match.out / Math.abs(match.scales[j]!);
  const isSame = Math.abs(Math.abs(out) - 1) < 1e-12;
  if (!isSame || outside(match.rule.inputs[j]!.quantity, input.value) !== undefined) return match;
  const scales = match.scales.map((scale, n) => (n === j ? Math.sign(scale) : scale));
  return { ...match, scales, out, other: { j, unit } };
}

/** The best that a departure finds. */
function nearest(
  departure: SearchedDeparture,
  targets: readonly Target[],
  library: Library,
  around: Around,
): Near | undefined {
  let best: Near | undefined;
  for (const target of targets) {
    target.effort.left = target.effort.most;
    for (const near of departure.find(target, library, around))
      if (!best || betterMatch(near.match, best.match)) best = near;
  }
  return best;
}

/** A library of one rule. */
const libraryOf = (rule: Rule): Library => ({ rules: new Map([[rule.inputs.length, [rule]]]) });

const betterMatch = (a: Match, b: Match): boolean =>
  rank[a.rule.form] !== rank[b.rule.form] ? rank[a.rule.form] > rank[b.rule.form] : a.liking > b.liking;
const better = (a: Exact, b: Exact): boolean => betterMatch(a.match, b.match);

/** Whether a rule of the same function gives the same numbers, input for input, as a limit with the same factor. */
function isAlike({ rule }: Match, other: Rule): boolean {
  if (other === rule || other.formula.id !== rule.formula.id || other.particular !== rule.particular) return false;
  return rule.points.every((point, k) => {
    const there = other.evaluate(point);
    return Math.abs(there - rule.values[k]!) <= 1e-12 * Math.abs(rule.values[k]!);
  });
}

/** What the numbers leave open: inputs that may be exchanged, and choices that make no difference. */
function openQuestions({ match, all }: Exact, exact: readonly Exact[], library: Library): Rulefound["open"] {
  const out: string[] = [];
  const { rule, order, other: kind } = match;
  if (kind) {
    const name = rule.inputs[kind.j]!.quantity.symbol.replace(/_/g, "");
    out.push(`The same law holds for ${name} and the value in ${kind.unit}: both are taken as they stand.`);
  }
  if (rule.particular) out.push(`${rule.particular.says}.`);
  const other = all.find((m) => m.liking > match.liking - 0.3 && m.order.some((i, j) => i !== order[j]));
  if (other) {
    const names = rule.inputs.flatMap(({ quantity }, j) => (other.order[j] === order[j] ? [] : [quantity.symbol]));
    out.push(`The numbers do not tell ${names.map((n) => n.replace(/_/g, "")).join(" and ")} apart.`);
  }
  const sameFunction = [
    ...exact.map((e) => e.match.rule),
    ...(library.rules.get(rule.inputs.length) ?? []).filter((one) => isAlike(match, one)),
  ].filter((one) => one.formula.id === rule.formula.id && one !== rule);
  for (const [name, value] of Object.entries(rule.choices)) {
    const values = new Set(sameFunction.flatMap((one) => (name in one.choices ? [String(one.choices[name])] : [])));
    values.delete(String(value));
    if (values.size > 0)
      out.push(`${name} may be ${[String(value), ...values].join(" or ")}: the numbers are the same.`);
  }
  return out;
}
