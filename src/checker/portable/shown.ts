import {
  anyOf,
  binaryNode,
  callNode,
  joined,
  letNode,
  nameNode,
  negative,
  numberNode,
  rowNode,
  textNode,
  type FormulaNode,
} from "../../cells/index.ts";

const n = numberNode;
const whether = nameNode("TRUE");

/** So many digits are shown: numbers of one digit more are one decade up. */
const sixDigits = 1_000_000;

/** Times or over a power of ten, whichever is a whole number. */
const tenfold = (value: FormulaNode, power: FormulaNode, up: "*" | "/"): FormulaNode => {
  const to = (difference: FormulaNode): FormulaNode => binaryNode("^", n(10), difference);
  const left = to(binaryNode("-", n(5), power));
  const right = to(binaryNode("-", power, n(5)));
  return callNode(
    "IF",
    binaryNode("<=", power, n(5)),
    binaryNode(up, value, left),
    binaryNode(up === "*" ? "/" : "*", value, right),
  );
};

/**
 * A number as messages write it (`format` of the core): up to six significant digits, a true minus sign, a point in every
 * language, powers of ten from ten million on. It goes by the six digits as a whole number, which every program has exactly.
 */
export function shownNode(value: FormulaNode): FormulaNode {
  const [v, first, all, power, digits, far, zeros] = ["v", "p0", "all", "p", "six", "far", "zeros"].map((name) =>
    nameNode(`shown_${name}`),
  ) as [FormulaNode, FormulaNode, FormulaNode, FormulaNode, FormulaNode, FormulaNode, FormulaNode];
  const isNothing = binaryNode("=", v, n(0));
  const isMore = binaryNode(">=", all, n(sixDigits));
  const tens = rowNode([1, 2, 3, 4, 5].map((i) => n(10 ** i)));
  const size = callNode("IF", far, binaryNode("/", digits, n(1e5)), tenfold(digits, power, "/"));
  const places = binaryNode("-", callNode("IF", far, n(5), binaryNode("-", n(5), power)), zeros);
  const point = callNode("MID", callNode("FIXED", n(1.5), n(1), whether), n(2), n(1));
  const fixed = callNode("FIXED", size, callNode("MAX", n(0), places), whether);
  const tenth = callNode("IF", far, joined(textNode("e−"), negative(power)), textNode(""));
  return letNode(
    [
      ["shown_v", value],
      ["shown_p0", callNode("IF", isNothing, n(0), callNode("INT", callNode("LOG10", callNode("ABS", v))))],
      ["shown_all", callNode("ROUND", tenfold(callNode("ABS", v), first, "*"), n(0))],
      ["shown_p", callNode("IF", isMore, binaryNode("+", first, n(1)), first)],
      ["shown_six", callNode("IF", isMore, binaryNode("/", all, n(10)), all)],
      ["shown_far", anyOf(binaryNode(">=", power, n(7)), binaryNode("<", power, n(-6)))],
      [
        "shown_zeros",
        callNode("SUMPRODUCT", binaryNode("*", n(1), binaryNode("=", callNode("MOD", digits, tens), n(0)))),
      ],
    ],
    joined(
      callNode("IF", binaryNode("<", v, n(0)), textNode("−"), textNode("")),
      callNode("SUBSTITUTE", fixed, point, textNode(".")),
      callNode("IF", binaryNode(">=", power, n(7)), joined(textNode("·10^"), power), tenth),
    ),
  );
}

/** What a cell holds, as messages repeat it: in quotes, cut after 40 characters. */
export function quotedNode(cell: FormulaNode): FormulaNode {
  const text = nameNode("quoted_t");
  return letNode(
    [["quoted_t", callNode("IF", callNode("ISLOGICAL", cell), callNode("LOWER", cell), joined(cell, textNode("")))]],
    joined(
      textNode("“"),
      callNode(
        "IF",
        binaryNode(">", callNode("LEN", text), n(40)),
        joined(callNode("LEFT", text, n(39)), textNode("…")),
        text,
      ),
      textNode("”"),
    ),
  );
}

/** The ways in which a number is refused, as `refusedNumberNode` tells them apart. */
export const kinds = { below: 1, above: 2, notWhole: 3, missing: 4, noNumber: 5, notAbove: 6, notBelow: 7 } as const;

/** What the message about a number says, each as a part of a formula. */
export interface RefusedNumber {
  readonly kind: FormulaNode;
  readonly cell: FormulaNode;
  readonly name: FormulaNode;
  /** With a blank before it; nothing for a plain number. */
  readonly unit: FormulaNode;
  /** As text. */
  readonly low: FormulaNode;
  readonly high: FormulaNode;
  readonly allowed: FormulaNode;
  /** What follows the upper bound where that has a reason; nothing where it does not. */
  readonly beyond: FormulaNode;
}

/** The message of the core about a number that is refused, without the hint at another unit. */
export function refusedNumberNode(
  { kind, cell, name, unit, low, high, allowed, beyond }: RefusedNumber,
  shown: (value: FormulaNode) => FormulaNode,
  quoted: (cell: FormulaNode) => FormulaNode,
): FormulaNode {
  const is = (which: number): FormulaNode => binaryNode("=", kind, n(which));
  const text = textNode;
  const when = (condition: FormulaNode, then: FormulaNode, otherwise: FormulaNode): FormulaNode =>
    callNode("IF", condition, then, otherwise);
  const needed = joined(
    text("a number"),
    when(binaryNode("=", unit, text("")), text(""), joined(text(" in"), unit)),
    text(" is needed"),
  );
  const missing = joined(
    text(" is missing; "),
    needed,
    when(binaryNode("=", allowed, text("")), text(""), joined(text(" (allowed: "), allowed, text(")"))),
  );
  const other = joined(
    text(" is "),
    when(callNode("ISLOGICAL", cell), callNode("UPPER", cell), joined(text("the text "), quoted(cell))),
    text("; "),
    needed,
  );
  const isBelow = anyOf(is(kinds.below), is(kinds.notAbove));
  const behind = joined(text("; allowed: "), allowed);
  const bound = when(
    isBelow,
    joined(low, unit, behind),
    joined(high, unit, when(binaryNode("=", beyond, text("")), behind, beyond)),
  );
  const side = callNode(
    "CHOOSE",
    kind,
    ...["below ", "above ", "", "", "", "not above ", "not below "].map((word) => text(word)),
  );
  const outside = when(
    is(kinds.notWhole),
    joined(text("not a whole number; allowed: whole numbers, "), allowed),
    joined(side, bound),
  );
  const number = joined(text(" = "), shown(cell), unit, text(" is "), outside);
  return joined(name, when(is(kinds.missing), missing, when(is(kinds.noNumber), other, number)));
}
