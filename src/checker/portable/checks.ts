import {
  allOf,
  anyOf,
  binaryNode,
  callNode,
  joined,
  letNode,
  nameNode,
  numberNode,
  textNode,
  writeNode,
  type FormulaNode,
} from "../../cells/index.ts";
import {
  allowedText,
  beyondText,
  format,
  nameOf,
  neighboursOf,
  type Choice,
  type Parameter,
  type Quantity,
} from "../../core/index.ts";
import { isBlankNode, onlyWhere, type Reading } from "./reading.ts";
import { kinds } from "./shown.ts";
import { behindEntry, missingChoice, sentence, shownCharacters, unitText } from "./texts.ts";
import type { Writing } from "./writing.ts";

const n = numberNode;
const shownNames = ["shown_1", "shown_2", "shown_3"] as const;
/** A number in the message of a `SaidCheck`: one of those it shows. */
export const shownAt = (i: 0 | 1 | 2): FormulaNode => nameNode(shownNames[i]);

/** What a number must be. */
interface NumberCheck {
  readonly quantity: Quantity;
  readonly cell: FormulaNode;
  readonly where?: FormulaNode;
}

/** Another way in which a call is refused, with its own words. */
export interface SaidCheck {
  readonly fails: FormulaNode;
  /** With `shownAt` in place of the numbers. */
  readonly says: FormulaNode;
  /** Three numbers at most. */
  readonly shows?: readonly FormulaNode[];
  readonly where?: FormulaNode;
  /** It computes with arguments: they must have passed all other checks. */
  readonly computes?: true;
}

export type Check = NumberCheck | SaidCheck;

const isNumber = (cell: FormulaNode): FormulaNode => callNode("ISNUMBER", cell);
const when = (condition: FormulaNode, then: FormulaNode, otherwise: FormulaNode): FormulaNode =>
  callNode("IF", condition, then, otherwise);

/** "A value in per cent?" behind a refused number, or nothing. */
export function hintNode(q: Quantity, value: FormulaNode): FormulaNode {
  const options = neighboursOf(q).map(({ name, factor }) => {
    const own = factor === 1 ? value : binaryNode("/", value, n(factor));
    const low = Math.max(q.min ?? -Infinity, q.typical?.[0] ?? -Infinity);
    const high = Math.min(q.max ?? Infinity, q.typical?.[1] ?? Infinity);
    const size = callNode("ABS", own);
    const conditions = [
      ...(low > 0 || high < 0 ? [] : [binaryNode("<>", value, n(0))]),
      ...(low > -Infinity ? [binaryNode(">=", own, n(low))] : []),
      ...(q.above !== undefined && q.above >= low ? [binaryNode(">", own, n(q.above))] : []),
      ...(high < Infinity ? [binaryNode("<=", own, n(high))] : []),
      ...(q.below !== undefined && q.below <= high ? [binaryNode("<", own, n(q.below))] : []),
      ...(q.typical && q.smallest !== undefined
        ? [anyOf(binaryNode(">=", size, n(q.smallest)), binaryNode("<=", size, n(q.smallest * 1e-7)))]
        : []),
    ];
    return [allOf(...conditions), `. A value in ${name}?`] as const;
  });
  return options.reduceRight<FormulaNode>((rest, [holds, text]) => when(holds, textNode(text), rest), textNode(""));
}

/** In which way a cell is no such number, as `kinds` has it; 0 where it is one. */
function kindNode(q: Quantity, cell: FormulaNode): FormulaNode {
  const whole = q.whole ? when(binaryNode("<>", cell, callNode("INT", cell)), n(kinds.notWhole), n(0)) : n(0);
  const side = (
    rest: FormulaNode,
    {
      sign,
      bound,
      excluded,
      passed,
      at,
    }: { sign: "<" | ">"; bound?: number; excluded?: number; passed: number; at: number },
  ): FormulaNode => {
    const conditions = [
      ...(bound === undefined ? [] : [binaryNode(sign, cell, n(bound))]),
      ...(excluded === undefined ? [] : [binaryNode(`${sign}=`, cell, n(excluded))]),
    ];
    if (conditions.length === 0) return rest;
    const kind = excluded === undefined ? n(passed) : when(binaryNode("=", cell, n(excluded)), n(at), n(passed));
    return when(anyOf(...conditions), kind, rest);
  };
  const above = side(whole, {
    sign: ">",
    ...(q.max !== undefined && { bound: q.max }),
    ...(q.below !== undefined && { excluded: q.below }),
    passed: kinds.above,
    at: kinds.notBelow,
  });
  const number = side(above, {
    sign: "<",
    ...(q.min !== undefined && { bound: q.min }),
    ...(q.above !== undefined && { excluded: q.above }),
    passed: kinds.below,
    at: kinds.notAbove,
  });
  const required = q.default === undefined && q.blank === undefined;
  return when(isNumber(cell), number, when(isBlankNode(cell), n(required ? kinds.missing : 0), n(kinds.noNumber)));
}

function choiceCheck(c: Choice, name: string, reading: Reading, writing: Writing): SaidCheck {
  const cell = reading.cell(name);
  const known = reading.isKnown(name, c);
  const wrong = letNode(
    [["entry_t", writing.quoted(cell)]],
    joined(textNode(`${nameOf(c)} = `), nameNode("entry_t"), behindEntry(c, nameNode("entry_t"))),
  );
  if (c.default !== undefined || c.blank !== undefined)
    return { fails: callNode("NOT", anyOf(isBlankNode(cell), known)), says: wrong };
  return { fails: callNode("NOT", known), says: when(isBlankNode(cell), textNode(missingChoice(c)), wrong) };
}

/** What a parameter as it is in force must be. */
export function parameterCheck(
  name: string,
  parameter: Parameter,
  reading: Reading,
  writing: Writing,
): Check | undefined {
  if (parameter.kind === "number") return { quantity: parameter, cell: reading.cell(name) };
  return parameter.kind === "choice" ? choiceCheck(parameter, name, reading, writing) : undefined;
}

/** What a choice does not ask for must be blank, or 0. `choice` says which it is. */
export function unusedCheck(
  name: string,
  declared: Parameter,
  choice: FormulaNode,
  reading: Reading,
  writing: Writing,
): SaidCheck {
  const cell = reading.cell(name);
  const number = joined(shownAt(0), textNode(declared.kind === "number" ? unitText(declared) : ""));
  const other = when(callNode("ISLOGICAL", cell), callNode("UPPER", cell), writing.quoted(cell));
  const behind = nameNode("unused_t");
  const whole = joined(textNode(nameOf(declared)), behind);
  const short = joined(textNode(declared.symbol.replace(/_/g, "")), behind);
  return {
    fails: callNode("NOT", anyOf(isBlankNode(cell), binaryNode("=", cell, n(0)))),
    shows: [when(isNumber(cell), cell, n(0))],
    says: letNode(
      [
        [
          "unused_t",
          sentence(" = ", when(isNumber(cell), number, other), " is not used with ", choice, "; leave it blank"),
        ],
      ],
      when(binaryNode(">", callNode("LEN", whole), n(shownCharacters)), short, whole),
    ),
  };
}

const isNumberCheck = (check: Check): check is NumberCheck => "quantity" in check;

/** The same value in all places once, else the one of the check whose number is asked for. */
function chosen(at: FormulaNode, values: readonly FormulaNode[]): FormulaNode {
  const first = writeNode(values[0]!);
  return values.every((value) => writeNode(value) === first) ? values[0]! : callNode("CHOOSE", at, ...values);
}

/** The message about a number, by its place among the checks of numbers. */
function numberMessage(checks: readonly NumberCheck[], fault: FormulaNode, writing: Writing): FormulaNode {
  const at = nameNode("number_n");
  const cell = nameNode("refused_v");
  const text = (of: (q: Quantity) => string): FormulaNode =>
    chosen(
      at,
      checks.map(({ quantity }) => textNode(of(quantity))),
    );
  const bound = (low: number | undefined, other: number | undefined): string => {
    const value = low ?? other;
    return value === undefined ? "" : format(value);
  };
  const kind = nameNode("kind_n");
  const message = writing.refusedNumber({
    kind,
    cell,
    name: text(nameOf),
    unit: text(unitText),
    low: text(({ min, above }) => bound(min, above)),
    high: text(({ max, below }) => bound(max, below)),
    allowed: text(allowedText),
    beyond: text((q) => (q.because === undefined ? "" : beyondText(q))),
  });
  const hints = chosen(
    at,
    checks.map(({ quantity, cell: own }) => hintNode(quantity, own)),
  );
  const numbers: (readonly [string, FormulaNode])[] = [
    ["number_n", callNode("INT", binaryNode("/", fault, n(10)))],
    ["kind_n", binaryNode("-", fault, binaryNode("*", n(10), at))],
    [
      "refused_v",
      chosen(
        at,
        checks.map((check) => check.cell),
      ),
    ],
    ["message_t", message],
  ];
  if (writeNode(hints) === '""') return letNode(numbers, nameNode("message_t"));
  const outside = anyOf(binaryNode("<", kind, n(3)), binaryNode(">", kind, n(5)));
  const both = joined(nameNode("message_t"), nameNode("hint_t"));
  return letNode(
    [...numbers, ["hint_t", when(outside, hints, textNode(""))]],
    when(binaryNode(">", callNode("LEN", both), n(shownCharacters)), nameNode("message_t"), both),
  );
}

/** The message of another check, by its place among those. */
function saidMessage(checks: readonly SaidCheck[], at: FormulaNode, writing: Writing): FormulaNode {
  const most = Math.max(0, ...checks.map(({ shows = [] }) => shows.length));
  const numbers = Array.from({ length: most }, (_, i): readonly [string, FormulaNode] => [
    shownNames[i]!,
    writing.shown(
      chosen(
        at,
        checks.map(({ shows = [] }) => shows[i] ?? n(0)),
      ),
    ),
  ]);
  return letNode(
    numbers,
    chosen(
      at,
      checks.map(({ says }) => says),
    ),
  );
}

/**
 * What a call gives: `result` where nothing is wrong, else the message of the first check that fails. An error among the
 * arguments is the result.
 */
export function checkedNode(checks: readonly Check[], result: FormulaNode, writing: Writing): FormulaNode {
  if (checks.length === 0) return result;
  const numbers = checks.filter(isNumberCheck);
  const said = checks.filter((check): check is SaidCheck => !isNumberCheck(check));
  const fault = nameNode("fault_n");
  const enteredName = nameNode("entered_n");
  const named: (readonly [string, FormulaNode])[] = [];
  const pairOf = (check: Check): readonly FormulaNode[] => {
    if (!isNumberCheck(check)) {
      const fails = check.where ? onlyWhere(check.where, check.fails) : check.fails;
      return [fails, n(10 * (numbers.length + said.indexOf(check) + 1))];
    }
    const place = numbers.indexOf(check) + 1;
    const kind = kindNode(check.quantity, check.cell);
    const name = `kind_${place}_n`;
    named.push([name, check.where ? when(check.where, kind, n(0)) : kind]);
    return [binaryNode(">", nameNode(name), n(0)), binaryNode("+", n(10 * place), nameNode(name))];
  };
  const firstOf = (some: readonly Check[]): FormulaNode =>
    some.length === 0 ? n(0) : callNode("IFS", ...some.flatMap(pairOf), nameNode("TRUE"), n(0));
  const computes = (check: Check): boolean => !isNumberCheck(check) && check.computes === true;
  const entered = firstOf(checks.filter((check) => !computes(check)));
  const others = checks.filter(computes);
  const last = 10 * (numbers.length + 1);
  const number = numbers.length === 0 ? undefined : numberMessage(numbers, fault, writing);
  const place = binaryNode("/", binaryNode("-", fault, n(10 * numbers.length)), n(10));
  const other =
    said.length === 0 ? undefined : letNode([["said_n", place]], saidMessage(said, nameNode("said_n"), writing));
  const message = number && other ? when(binaryNode("<", fault, n(last)), number, other) : (number ?? other)!;
  return letNode(
    [
      ...named,
      ["entered_n", entered],
      [
        "fault_n",
        others.length === 0 ? enteredName : when(binaryNode(">", enteredName, n(0)), enteredName, firstOf(others)),
      ],
    ],
    when(binaryNode(">", fault, n(0)), message, result),
  );
}
