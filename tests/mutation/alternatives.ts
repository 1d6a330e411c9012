import ts from "typescript";

/** One small wrong change of a file. */
export interface Mutant {
  /** Place in the text. */
  readonly at: number;
  readonly was: string;
  readonly becomes: string;
  /** A bound or an everyday range of a declaration, not a part of a calculation. */
  readonly isRange: boolean;
}

type Becomes = readonly { readonly word: string; readonly name: string }[];
const K = ts.SyntaxKind;

/** Operators by the name of the function that does the same, and the slips made with each. Both sides are always evaluated. */
export const operators: Readonly<Partial<Record<ts.SyntaxKind, { readonly name: string; readonly slips: Becomes }>>> = {
  [K.PlusToken]: { name: "add", slips: [{ word: "-", name: "subtract" }] },
  [K.MinusToken]: { name: "subtract", slips: [{ word: "+", name: "add" }] },
  [K.AsteriskToken]: { name: "multiply", slips: [{ word: "/", name: "divide" }] },
  [K.SlashToken]: { name: "divide", slips: [{ word: "*", name: "multiply" }] },
  [K.PercentToken]: { name: "remainder", slips: [{ word: "*", name: "multiply" }] },
  [K.AsteriskAsteriskToken]: { name: "power", slips: [{ word: "*", name: "multiply" }] },
  [K.LessThanToken]: {
    name: "less",
    slips: [
      { word: "<=", name: "atMost" },
      { word: ">=", name: "atLeast" },
    ],
  },
  [K.LessThanEqualsToken]: {
    name: "atMost",
    slips: [
      { word: "<", name: "less" },
      { word: ">", name: "more" },
    ],
  },
  [K.GreaterThanToken]: {
    name: "more",
    slips: [
      { word: ">=", name: "atLeast" },
      { word: "<=", name: "atMost" },
    ],
  },
  [K.GreaterThanEqualsToken]: {
    name: "atLeast",
    slips: [
      { word: ">", name: "more" },
      { word: "<", name: "less" },
    ],
  },
  [K.EqualsEqualsEqualsToken]: { name: "equal", slips: [{ word: "!==", name: "other" }] },
  [K.ExclamationEqualsEqualsToken]: { name: "other", slips: [{ word: "===", name: "equal" }] },
};

/** Operators whose right side is evaluated only where it is needed. */
export const lazyOperators: typeof operators = {
  [K.AmpersandAmpersandToken]: { name: "and", slips: [{ word: "||", name: "or" }] },
  [K.BarBarToken]: { name: "or", slips: [{ word: "&&", name: "and" }] },
  [K.QuestionQuestionToken]: { name: "given", slips: [{ word: "its right side", name: "right" }] },
};

export const assignments: Readonly<Partial<Record<ts.SyntaxKind, string>>> = {
  [K.PlusEqualsToken]: "-=",
  [K.MinusEqualsToken]: "+=",
  [K.AsteriskEqualsToken]: "/=",
  [K.SlashEqualsToken]: "*=",
};

/** Functions of Math taken for one another; `same` gives back its first argument. */
export const mathSlips: Readonly<Record<string, string>> = {
  min: "max",
  max: "min",
  floor: "ceil",
  ceil: "floor",
  round: "floor",
  abs: "same",
  sin: "cos",
  cos: "sin",
  log: "log10",
  log10: "log",
  sqrt: "same",
  exp: "same",
};

/** Methods of lists taken for one another. */
export const methodSlips: Readonly<Record<string, string>> = {
  some: "every",
  every: "some",
  reverse: "slice",
  sort: "slice",
  filter: "slice",
  find: "findLast",
  findIndex: "findLastIndex",
  reduceRight: "reduce",
};

/** A number with its last digit put off by one (the fourth, of longer ones), or its power of ten. */
export function slippedNumber(text: string): string {
  const power = /^(.*)e([+-]?\d+)$/i.exec(text);
  if (power) return `${power[1]}e${Number(power[2]) + 1}`;
  const digits = [...text];
  let significant = 0;
  let last = digits.length - 1;
  for (const [i, digit] of digits.entries()) {
    if (!/\d/.test(digit) || (significant === 0 && digit === "0" && i < digits.length - 1)) continue;
    last = i;
    if (++significant === 4) break;
  }
  digits[last] = digits[last] === "9" ? "8" : String(Number(digits[last]) + 1);
  return digits.join("");
}

/** Does the number stand in a place where any expression may stand? */
export function isExpression(node: ts.Node): boolean {
  const { parent } = node;
  if (ts.isLiteralTypeNode(parent) || ts.isEnumMember(parent)) return false;
  return !("name" in parent && parent.name === node) && !("propertyName" in parent && parent.propertyName === node);
}

const rangeNames = new Set(["min", "max", "above", "below", "typical", "range", "minRows"]);

/** Is the number a bound or an everyday range, in a declaration read once? */
export function isRange(node: ts.Node): boolean {
  for (let at: ts.Node = node; at.parent; at = at.parent) {
    if (ts.isFunctionLike(at)) return false;
    if (ts.isPropertyAssignment(at) && rangeNames.has(at.name.getText())) return true;
  }
  return false;
}
