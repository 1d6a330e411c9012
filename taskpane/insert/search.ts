import { basisText, families, sources, variantsOf, type Formula } from "../../src/core/index.ts";
import { worksheetFunctions, type WorksheetFunction } from "../../functions/index.ts";
import { greekNames } from "../../src/typeset/index.ts";
import { synonyms } from "./synonyms.ts";

/** A function that computes something, as opposed to one about the workbook. */
export type DesignFunction = WorksheetFunction & { readonly formula: Formula };

export const designFunctions: readonly DesignFunction[] = worksheetFunctions.filter(
  (f): f is DesignFunction => f.formula !== undefined,
);

/**
 * One spelling for search: small letters, Greek by name, symbols without their underscores: “σ_p0” and “sigma_p0” are
 * both `sigmap0`.
 */
export function plain(text: string): string {
  return [...text]
    .map((c) => greekNames[c] ?? c)
    .join("")
    .toLowerCase()
    .replace(/[_{}]/g, "")
    .replace(/∞/g, "inf");
}

const words = (text: string): readonly string[] =>
  text
    .split(/[^\p{L}\p{N}.+∞_]+/u)
    .map(plain)
    .map((word) => word.replace(/^\.+|\.+$/g, ""))
    .filter(Boolean);

/** What else the trade calls that of which these words speak. */
function alsoCalled(own: ReadonlySet<string>): ReadonlySet<string> {
  const said = (term: string): boolean => words(term).every((word) => own.has(word));
  return new Set(synonyms.filter((terms) => terms.some(said)).flatMap((terms) => terms.flatMap(words)));
}

interface Indexed {
  readonly of: DesignFunction;
  /** Words by how much a match in them says. */
  readonly groups: readonly (readonly [weight: number, words: ReadonlySet<string>])[];
}

function index(of: DesignFunction): Indexed {
  const { formula } = of;
  const parameters = Object.entries(formula.params);
  const own = variantsOf(formula);
  const steps = own.flatMap((f) => Object.values(f.steps));
  const symbols = [
    ...parameters.flatMap(([name, p]) => [p.symbol, name]),
    ...own.map((f) => f.result.symbol),
    ...steps.map((s) => s.symbol),
  ];
  const { key, basis } = formula.source;
  const clauses = [...own.map((f) => f.source.clause ?? ""), ...steps.map((s) => s.clause ?? "")].join(" ");
  const summaries = [formula.summary, ...own.map((f) => f.summary)].join(" ");
  const notes = [formula, ...own].flatMap((f) => f.notes ?? []).join(" ");
  const idWords = new Set(words(formula.id.replace(/_/g, " ")));
  return {
    of,
    groups: [
      // Names begin with the quantity: a function of friction before one that has friction in it.
      [7, new Set(words(formula.id.split("_")[0]!))],
      [6, new Set([...words(formula.id.replace(/_/g, " ")), ...words(formula.id)])],
      [5, new Set(symbols.flatMap(words))],
      [4, new Set(words(summaries))],
      [4, new Set([...words(clauses), ...words(clauses.replace(/[()]/g, " "))])],
      [4, alsoCalled(idWords)],
      [3, alsoCalled(new Set([...idWords, ...words(summaries)]))],
      [3, new Set(words(`${key} ${sources[key]} ${families[formula.family]}`))],
      [2, new Set(words(parameters.map(([, p]) => p.text).join(" ")))],
      [1, new Set(words(`${notes} ${basisText[basis]}`))],
    ],
  };
}

let made: readonly Indexed[] | undefined;

/** How well a word of the query is met: whole words count more than beginnings, and those more than middles. */
function matches(query: string, { groups }: Indexed): number {
  let best = 0;
  for (const [weight, all] of groups) {
    if (all.has(query)) best = Math.max(best, weight * 3);
    else if (query.length >= 2) {
      for (const word of all) {
        if (word.startsWith(query)) best = Math.max(best, weight * 2);
        else if (query.length >= 3 && word.includes(query)) best = Math.max(best, weight);
      }
    }
  }
  return best;
}

/** The functions that meet every word of the query, best first; all of them for an empty query. */
export function search(query: string): readonly DesignFunction[] {
  const wanted = words(query.replace(/KERN\./gi, ""));
  if (wanted.length === 0) return designFunctions;
  made ??= designFunctions.map(index);
  return made
    .map((it, order) => ({ it, order, scores: wanted.map((word) => matches(word, it)) }))
    .filter(({ scores }) => scores.every((score) => score > 0))
    .map(({ it, order, scores }) => ({ it, order, score: scores.reduce((sum, s) => sum + s, 0) }))
    .sort((a, b) => b.score - a.score || a.order - b.order)
    .map(({ it }) => it.of);
}
