import { isUnusual } from "../../core/index.ts";
import { supportFor, type Match } from "./match.ts";
import type { Rule } from "./rules.ts";
import { supportOf, type Support } from "./support.ts";
import type { Target } from "./target.ts";

/** What the texts beside the cells say for a match. */
export interface Backing {
  /** Inputs that a symbol or words name as the argument, and those that have a unit of its kind. */
  readonly named: number;
  readonly inUnits: number;
  readonly resultNamed: boolean;
  readonly resultInUnit: boolean;
  /** Labels with a unit of another kind, or words that say it is something else. */
  readonly against: number;
  /** Every value of the sheet is an everyday value of its argument. */
  readonly everyday: boolean;
}

const isNamed = ({ symbol, words }: Support): boolean => symbol || words >= 1;

export function backingOf(match: Match): Backing {
  const { rule, target, order, scales } = match;
  const supports = order.map((i, j) => supportFor(target.inputs[i]!, rule.inputs[j]!.quantity));
  const result = supportOf(target.label, rule.result);
  const everyday = order.every((i, j) => {
    const { quantity } = rule.inputs[j]!;
    return !isUnusual(quantity, target.inputs[i]!.value * Math.abs(scales[j]!));
  });
  const kinds = [...supports, result].filter(({ otherKind }) => otherKind).length;
  return {
    named: supports.filter(isNamed).length,
    inUnits: supports.filter(({ unit }) => unit !== undefined).length,
    resultNamed: isNamed(result),
    resultInUnit: result.unit !== undefined && rule.result.unit !== "–",
    against: kinds,
    everyday,
  };
}

/** A product of powers. */
export const isProduct = ({ shapes }: Rule): boolean => shapes.every(({ power }) => power !== undefined);

/**
 * Whether a match may be called by the rule's name. A form that hardly anything else has speaks for itself. A longer one
 * without constants of its own needs some word, symbol or unit, or everyday values throughout. What any sheet has, as
 * a · b or a/b, needs labels that name the result and its inputs; else it stays a possibility. Sums of products with three
 * inputs or more lie between.
 */
export function isBacked(match: Match, backing = backingOf(match)): boolean {
  const count = match.rule.inputs.length;
  const { form } = match.rule;
  if (form === "known by its form") return backing.against < Math.max(2, count / 2 + 1);
  if (backing.against > 0 || match.target.cut.part) return false;
  const { named, inUnits, resultNamed, resultInUnit, everyday } = backing;
  if (form === "own") return everyday || named + (resultNamed ? 1 : 0) >= 2 || inUnits >= count / 2;
  if (!isProduct(match.rule) && count >= 3)
    return (resultNamed || resultInUnit) && named >= 1 && named + inUnits >= count / 2 && everyday;
  const spoken = named + inUnits / 2;
  return (resultNamed || (resultInUnit && named === count)) && named >= Math.ceil(count / 2) && spoken >= count / 2;
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
  return isNamed(result) || (result.unit !== undefined && rule.result.unit !== "–");
}
