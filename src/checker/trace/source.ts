import { readFormula, type Call } from "../../cells/index.ts";
import {
  basisText,
  choicesGiven,
  formulas,
  reasonOf,
  sourceFor,
  sources,
  spills,
  type Argument,
  type Declaration,
} from "../../core/index.ts";
import { clauseWords } from "../../typeset/index.ts";

/** The short name of a work: what stands before its first comma or colon that is followed by a blank. */
function workOf(key: Declaration["source"]["key"]): string {
  return sources[key].split(/, |: (?=\p{Lu})|\. /u)[0]!.replace(/\.$/, "");
}

/** "EN 1992-1-1:2004, Clause 5.10.6(2) (5.46)": where a function's rule stands, in one line, with the choices made in a call. */
export function placeInWork(of: Declaration, choices: Readonly<Record<string, unknown>> = {}): string {
  const source = sourceFor(of, choices);
  return source.clause === undefined ? workOf(source.key) : `${workOf(source.key)}, ${clauseWords(source.clause)}`;
}

/** How a rule was established, in words. */
export function basisOf(of: Declaration, choices: Readonly<Record<string, unknown>> = {}): string {
  const source = sourceFor(of, choices);
  return `${basisText[source.basis]}${source.readIn ? `, in ${workOf(source.readIn)}` : ""}`;
}

/** The arguments that a call writes out; an empty range for those it refers to. */
function writtenOut(call: Call): readonly Argument[] {
  return call.arguments.map((written) => {
    if (written.kind === "literal") return written.value;
    return written.text.trim() === "" ? undefined : [];
  });
}

/** Each of our functions that is called, misspelt ones left out, with the place of its rule under the choices written there. */
export function rulesOf(calls: readonly Call[]): readonly { readonly id: string; readonly place: string }[] {
  return calls.flatMap((call) =>
    [...formulas, ...spills]
      .filter((f) => f.id === call.id && call.misspelt === undefined)
      .map((f) => ({ id: f.id, place: placeInWork(f, choicesGiven(f, writtenOut(call))) })),
  );
}

const known = new Map<string, string>();

/** Where the value of a formula comes from, in one line: the places of its functions' rules, or that it is a formula of the sheet. */
export function sourceOfFormula(formula: string): string {
  let text = known.get(formula);
  if (text !== undefined) return text;
  text = "a formula of the sheet";
  try {
    const places = [...new Set(rulesOf(readFormula(formula).calls).map(({ place }) => place))];
    if (places.length > 0) text = places.slice(0, 2).join("; ") + (places.length > 2 ? "; …" : "");
  } catch (problem) {
    text = `a formula that cannot be read: ${reasonOf(problem)}`;
  }
  known.set(formula, text);
  return text;
}
