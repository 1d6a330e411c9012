import { isUnusual } from "../../core/index.ts";
import type { Label } from "../trace/labels.ts";
import { inUnit } from "../trace/units.ts";
import { supportFor, type Match } from "./match.ts";
import type { Rule } from "./rules.ts";
import { namesFunction, supportOf, type Support } from "./support.ts";
import type { Target } from "./target.ts";

/** What the texts beside the cells say for a match. */
interface Backing {
  /** Inputs that a symbol or words name as the argument, and those that have a unit of its kind. */
  readonly named: number;
  readonly inUnits: number;
  readonly resultNamed: boolean;
  readonly resultInUnit: boolean;
  /** Inputs that have words or a symbol beside them, whatever these say. */
  readonly labelled: number;
  /** Labels with a unit of another kind, or words that say it is something else. */
  readonly against: number;
  /** Every value of the sheet is an everyday value of its argument. */
  readonly everyday: boolean;
}

export const isLabelled = (label: Label | undefined): boolean =>
  label !== undefined && (label.description !== "" || label.symbol !== "");
export const isNamed = ({ symbol, words }: Support): boolean => symbol || words >= 1;

/** Whether the label of an input names the same unit as that of the result, or the result's names none. */
function isSameKind({ target, order }: Match, j: number): boolean {
  const [own, result] = [target.inputs[order[j]!]!.label?.known, target.label?.known];
  return own !== undefined && (result === undefined || own.unit === result.unit);
}

/**
 * The input of a rule for stresses that is a force by its label, as the value is: a rule in which the value goes with that
 * input holds for forces too. Undefined where there is none.
 */
export function heldForOther(match: Match): number | undefined {
  const { rule, target, order } = match;
  const j = rule.inputs.findIndex(
    ({ quantity }, n) =>
      rule.shapes[n]!.power === 1 && supportFor(target.inputs[order[n]!]!, quantity).otherKind && isSameKind(match, n),
  );
  return j < 0 ? undefined : j;
}

/** Whether the label's unit is what the argument has with another choice, as a wobble coefficient in 1/m and in rad/m. */
function fitsAnotherChoice({ rule, target, order }: Match, j: number): boolean {
  const declared = rule.formula.params[rule.inputs[j]!.name];
  const known = target.inputs[order[j]!]!.label?.known;
  if (declared?.kind !== "number" || !declared.follows || !known) return false;
  return Object.values(declared.follows.as).some(({ unit }) => inUnit(known, unit) !== undefined);
}

export function backingOf(match: Match): Backing {
  const { rule, target, order, scales } = match;
  const supports = order.map((i, j) => supportFor(target.inputs[i]!, rule.inputs[j]!.quantity));
  const result = supportOf(target.label, rule.result);
  const everyday = order.every((i, j) => {
    const { quantity } = rule.inputs[j]!;
    return !isUnusual(quantity, target.inputs[i]!.value * Math.abs(scales[j]!));
  });
  const turned = heldForOther(match);
  const spared = turned !== undefined;
  const kinds = [
    ...supports.filter((s, j) => s.otherKind && !(spared && j === turned) && !fitsAnotherChoice(match, j)),
  ];
  if (result.otherKind && !spared) kinds.push(result);
  return {
    named: supports.filter(isNamed).length,
    inUnits: supports.filter(({ unit }) => unit !== undefined).length,
    resultNamed: isNamed(result) || namesFunction(target.label, rule.formula.id),
    labelled: order.filter((i) => isLabelled(target.inputs[i]!.label)).length,
    resultInUnit: result.unit !== undefined && rule.result.unit !== "–",
    against: kinds.length,
    everyday,
  };
}

/** A product of powers. */
export const isProduct = ({ shapes }: Rule): boolean => shapes.every(({ power }) => power !== undefined);

/**
 * Whether a match may be called by the rule's name. A form that hardly anything else has speaks for itself, unless most
 * labels speak of other kinds. A longer one without constants of its own needs words, symbols or units that agree, or
 * everyday values where nothing is written beside the cells. Short sums, and above all what any sheet has, as a · b or
 * a/b, need labels that name the result and its inputs; else it stays a possibility.
 */
export function isBacked(match: Match, backing = backingOf(match)): boolean {
  const count = match.rule.inputs.length;
  const { form } = match.rule;
  const { named, inUnits, resultNamed, resultInUnit, everyday, labelled, against } = backing;
  if (form === "known by its form") return against < Math.max(2, count / 2 + 1);
  if (against > 0 || match.target.cut.part) return false;
  const spoken = named + inUnits / 2 + (resultNamed ? 1 : 0) + (resultInUnit ? 0.5 : 0);
  if (form === "own")
    return labelled < count / 2 ? everyday : named + (resultNamed ? 1 : 0) >= 2 || spoken >= count / 2 + 1;
  if (!isProduct(match.rule) && count > 2)
    return everyday && named + (resultNamed ? 1 : 0) >= 1 && spoken >= count / 2 + 0.5;
  return (resultNamed || (resultInUnit && named === count)) && named >= Math.ceil(count / 2);
}

/**
 * Whether texts beside the cells could ever back a rule for a formula, whichever input is which argument. Tells without a
 * search that a rule of common form has no chance.
 */
export function couldBeBacked(rule: Rule, target: Target): boolean {
  if (rule.form !== "common") return true;
  if (target.cut.part) return false;
  const result = supportOf(target.label, rule.result);
  if (result.otherKind) return false;
  if (!isProduct(rule))
    return target.inputs.filter(({ label }) => isLabelled(label)).length >= target.inputs.length / 2;
  if (namesFunction(target.label, rule.formula.id)) return true;
  return isNamed(result) || (result.unit !== undefined && rule.result.unit !== "–");
}
