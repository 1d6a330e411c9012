import {
  basisText,
  choicesGiven,
  equationFor,
  formulaIn,
  formulas,
  ownCopyAdvice,
  sourceFor,
  type Argument,
  type Basis,
  type Formula,
} from "../core/index.ts";
import {
  cellReference,
  templateFormula,
  writeNode,
  type TemplateCall,
  type TemplatePiece,
  type TemplateReference,
} from "../cells/index.ts";
import { unguarded } from "./guards.ts";
import type { Says } from "./says.ts";
import type { Subject } from "./shape.ts";
import { markedSymbol } from "./subscripts.ts";

export const formulasById: ReadonlyMap<string, Formula> = new Map(formulas.map((f) => [f.id, f]));

type Subjects = ReadonlyMap<string, Subject>;

const marks: Readonly<Record<Basis, string>> = {
  seen: "seen",
  "second-hand": "second-hand",
  "memory-high": "memory, high",
  "memory-medium": "memory, medium",
  "memory-low": "memory, low",
  derived: "derived",
  practice: "practice",
};

/** Explains the marks behind clauses; for the head of every sheet. */
export const marksExplained =
  "Clauses without a name are of the sheet's standard. Marks behind a clause say how it was established: " +
  `${marksInWords()}; “in” names the text that was read. “empty” beside a range: the input may stay empty. ` +
  ownCopyAdvice;

/** Each mark with its meaning; those of memory, which differ in their confidence alone, are one. */
function marksInWords(): string {
  const said = (Object.keys(marks) as readonly Basis[]).map((basis) => {
    const confidence = /^memory-(.*)$/.exec(basis)?.[1];
    if (confidence === undefined) return `${marks[basis]} = ${basisText[basis]}`;
    return confidence === "high" ? "memory, high, medium or low = from memory, with that confidence" : undefined;
  });
  return said.filter((one) => one !== undefined).join("; ");
}

function symbolOf(reference: TemplateReference, subjects: Subjects): string {
  if (reference.kind === "shapeChanged") return "a shape input changed";
  if (reference.kind === "failing") return "checks that say FAIL";
  if (reference.kind === "warningsCode") return "code of the warnings";
  if (reference.kind === "assumptions") return "number of inputs that nobody has confirmed";
  if (reference.kind === "inputs") return `inputs that say ${reference.word}`;
  if (reference.kind === "count") return `number of ${reference.word}`;
  const symbol = (id: string): string => {
    const says = subjects.get(id)?.says;
    return says ? (says.symbol === "–" || says.symbol === "no." ? says.text : markedSymbol(says.symbol)) : id;
  };
  const own = symbol(reference.id);
  if (reference.to !== undefined) return `${own} … ${symbol(reference.to)}`;
  return {
    match: own,
    group: `all ${own}`,
    whole: `all ${own}`,
    above: `${own} above`,
    first: `first ${own}`,
    last: `last ${own}`,
  }[reference.pick];
}

const signs: Readonly<Record<string, string>> = {
  "*": "·",
  "-": "−",
  "<=": "≤",
  ">=": "≥",
  "<>": "≠",
  "/": "/",
  "(": "(",
  ")": ")",
  "^": "^",
  ",": ", ",
  "&": " & ",
};

/** Signs that stand apart from what they join. */
const spaced: ReadonlySet<string> = new Set(["+", "−", "=", "<", ">", "≤", "≥", "≠"]);

/** What a sign before a number or a symbol stands behind. */
const before = "(,·/^ ";

function pieceText(piece: TemplatePiece, subjects: Subjects): string {
  if (piece.kind === "template") return symbolOf(piece.reference, subjects);
  return piece.kind === "operator" ? (signs[piece.text] ?? piece.text) : piece.text;
}

/** A native formula with symbols in place of addresses. */
function nativeText(pieces: readonly TemplatePiece[], subjects: Subjects): string {
  let out = "";
  for (const piece of pieces) {
    if (piece.kind === "blank") continue;
    const text = pieceText(piece, subjects);
    // A sign before a number or a symbol stands by it; between two it stands apart. What stands within a symbol is no sign.
    const apart = piece.kind === "operator" && spaced.has(text) && out !== "" && !before.includes(out.at(-1)!);
    out += apart ? ` ${text} ` : text;
  }
  return out.replace(/ {2,}/g, " ").trim();
}

/** Functions as they are read on paper. */
const readAs: readonly (readonly [RegExp, string])[] = [
  [/INDEX\(all ([^,()]+), MATCH\(([^,()]+), all ([^,()]+), 0\)\)/g, "$1 where $3 = $2"],
  [/INDEX\(all ([^,()]+), ([^,()]+)\)/g, "$1 at $2"],
  [/SUMPRODUCT\(\((all [^()]+)\)·1\)/g, "number of $1"],
  [/SUMPRODUCT\(all ([^,()]+), all ([^,()]+)\)/g, "Σ $1·$2"],
  [/COUNTIF\(all ([^,()]+), "([^"]+)"\)/g, "number of $1 that say $2"],
  [/IF\(ISNUMBER\(([^,()]+)\), \1, /g, "$1 if given, otherwise ("],
  [/IF\((.+), "OK", "FAIL"\)$/g, "OK where $1"],
  [/where AND\((.+)\)$/g, "where $1"],
  [/SUM\(/g, "Σ("],
];

/** A native formula in words: what it computes, then the words it may say instead. */
function nativeWords(formula: string, subjects: Subjects): string {
  const { tree, pieces } = templateFormula(formula);
  if (!tree) return nativeText(pieces, subjects);
  const { core, words } = unguarded(tree);
  const text = nativeText(templateFormula(`=${writeNode(core)}`).pieces, subjects);
  const read = readAs
    .reduce((said, [from, to]) => said.replace(from, to), text)
    .replace(/\b(MAX|MIN)\(/g, (name) => name.toLowerCase())
    .replace(
      /\bKERN\.([A-Z0-9_]+?)(_(?:EN1992_2004|IS1343_1980))?\(/g,
      (_, id: string) => `${id.toLowerCase().replaceAll("_", " ")}(`,
    );
  const instead = [...new Set(words)].map((word) => `“${word}”`).join(", ");
  return instead === "" ? read : `${read}; or ${instead}`;
}

const powers: Readonly<Record<string, string>> = { "^2": "²", "^3": "³", "^4": "⁴" };

/** "a if condition, otherwise b" for an equation of two branches. */
function inWords(equation: string): string {
  const [, condition, then, otherwise] = /^([^?]+) \? ([^?:]+) : ([^?:]+)$/.exec(equation) ?? [];
  return condition ? `${then} “if” ${condition}, “otherwise” ${otherwise}` : equation;
}

/** An equation of a declaration with symbols in place of names. */
function equationText(equation: string, symbols: Readonly<Record<string, string>>): string {
  return inWords(equation)
    .replace(/“[^”]*”|[A-Za-z_]\w*(?!\w*\()/g, (name) =>
      name.startsWith("“") ? name.slice(1, -1) : (symbols[name] ?? name),
    )
    .replace(/\blog\(/g, "ln(")
    .replace(/\^[234](?!\d)/g, (power) => powers[power]!)
    .replace(/ *\* */g, "·")
    .replace(/ *\/ */g, "/")
    .replace(/-/g, "−")
    .replace(/<=/g, "≤")
    .replace(/>=/g, "≥")
    .replace(/!=/g, "≠")
    .replace(/==/g, "=");
}

/** The arguments that a call writes out; null for those it refers to, undefined for those it leaves out. */
export function writtenArguments(call: TemplateCall): readonly Argument[] {
  return call.arguments.map((given) => {
    if (!given) return undefined;
    return given.type === "Literal" ? given.value : unknownArgument;
  });
}
/** Of a reference nothing is known but that it is there. */
const unknownArgument: Argument = [];

function callText(of: Formula, call: TemplateCall, subjects: Subjects): string {
  const args = writtenArguments(call);
  const f = formulaIn(of, args);
  const last = Object.values(f.steps).at(-1);
  if (!last) return `${of.id.toLowerCase().replaceAll("_", " ")}, by choice; steps in Trace`;
  const symbols: Record<string, string> = {};
  Object.entries(f.params).forEach(([name, parameter], i) => {
    const given = call.arguments[i];
    const reference = cellReference(given);
    const said =
      reference && reference.to === undefined && parameter.kind === "number"
        ? symbolOf(reference, subjects)
        : undefined;
    const number = given?.type === "Literal" && typeof given.value === "number" ? given.raw : undefined;
    symbols[name] = said ?? number ?? markedSymbol(parameter.symbol);
  });
  for (const [name, step] of Object.entries(f.steps)) symbols[name] = markedSymbol(step.symbol);
  if ("equation" in last) return equationText(equationFor(last, choicesGiven(f, args)), symbols);
  return "lookup" in last
    ? `table by ${symbols[last.lookup.of] ?? last.lookup.of}`
    : `${f.id
        .toLowerCase()
        .replaceAll("_", " ")
        .replace(/ en1992 2004$/, "")}, governing equation in Trace`;
}

/** "Equation as read": a function's own equation with the row's symbols, or the native formula with symbols for addresses. */
export function equationAsRead(says: Says, formula: string, subjects: Subjects): string {
  if (says.equation !== undefined) return says.equation;
  const parsed = templateFormula(formula);
  const call = parsed.calls.find(({ whole }) => whole);
  const f = call && formulasById.get(call.id);
  const right = call && f ? callText(f, call, subjects) : nativeWords(formula, subjects);
  const left = markedSymbol(says.symbol);
  return left === "–" || left === right ? right : `${left} = ${right}`;
}

function sourceOfCall(f: Formula, call: TemplateCall, standard: string): string {
  const { key, clause, basis, readIn } = sourceFor(f, choicesGiven(f, writtenArguments(call)));
  // The sheet's own standard is not named again beside each of its clauses.
  const work = clause && standard.replace(" ", "").startsWith(`${key} `) ? "" : `${key} `;
  const name = key === "mechanics" || key === "practice" ? "" : `${work}${clause ?? ""}`.trim();
  const mark = `${marks[basis]}${readIn ? ` in ${readIn}` : ""}`;
  return name === "" ? (key === "mechanics" ? "mechanics, derived" : mark) : `${name} [${mark}]`;
}

/** The clause of each function a formula calls, with its mark; empty for plain arithmetic. `standard`: the sheet's. */
export function sourceText(says: Says, formula: string | undefined, standard: string): string {
  if (says.source !== undefined) return says.source;
  if (formula === undefined) return "";
  const texts = templateFormula(formula).calls.flatMap((call) => {
    const f = formulasById.get(call.id);
    return f ? [sourceOfCall(f, call, standard)] : [];
  });
  return [...new Set(texts)].join("; ");
}
