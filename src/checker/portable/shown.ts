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

/** So many places behind the point are looked at: six digits of a millionth. */
const places = 12;

/**
 * A number as messages write it (`format` of the core): up to six significant digits, a true minus sign, a point in every
 * language, powers of ten from ten million on.
 */
export function shownNode(value: FormulaNode): FormulaNode {
  const [v, six, power, far, size] = ["shown_v", "shown_six", "shown_p", "shown_far", "shown_size"].map((name) =>
    nameNode(name),
  ) as [FormulaNode, FormulaNode, FormulaNode, FormulaNode, FormulaNode];
  const decade = (of: FormulaNode): FormulaNode => callNode("INT", callNode("LOG10", callNode("ABS", of)));
  const all = rowNode(Array.from({ length: places + 1 }, (_, i) => n(i)));
  // How many places it takes: those at which rounding still changes it.
  const changed = binaryNode("<>", callNode("ROUND", size, all), size);
  const needed = callNode("SUMPRODUCT", negative(negative(changed)));
  const point = callNode("MID", callNode("FIXED", n(1.5), n(1), whether), n(2), n(1));
  const digits = callNode("SUBSTITUTE", callNode("FIXED", size, needed, whether), point, textNode("."));
  const mantissa = callNode("ROUND", binaryNode("/", callNode("ABS", six), binaryNode("^", n(10), power)), n(5));
  const tenth = callNode("IF", far, joined(textNode("e−"), negative(power)), textNode(""));
  return letNode(
    [
      ["shown_v", value],
      [
        "shown_six",
        callNode("IF", binaryNode("=", v, n(0)), n(0), callNode("ROUND", v, binaryNode("-", n(5), decade(v)))),
      ],
      ["shown_p", callNode("IF", binaryNode("=", six, n(0)), n(0), decade(six))],
      ["shown_far", anyOf(binaryNode(">=", power, n(7)), binaryNode("<", power, n(-6)))],
      ["shown_size", callNode("IF", far, mantissa, callNode("ABS", six))],
    ],
    joined(
      callNode("IF", binaryNode("<", six, n(0)), textNode("−"), textNode("")),
      digits,
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
