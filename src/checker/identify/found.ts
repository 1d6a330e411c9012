import type { Book } from "../../cells/index.ts";
import { basisText, formulas, sourceFor, type Formula, type Parameter } from "../../core/index.ts";
import type { Difference, FoundArgument, Rulefound } from "./finding.ts";
import type { Agreement, Match } from "./match.ts";
import { cellText, inputText, offeredFormula, writtenOf } from "./offer.ts";
import type { Rule } from "./rules.ts";
import { scaleName } from "./scales.ts";
import type { TargetInput } from "./target.ts";

/** "EN1992-1-1:2004 3.1.4 (text read)" */
function citation(formula: Formula, choices: Readonly<Record<string, unknown>>): string {
  const { key, clause, basis } = sourceFor(formula, choices);
  const name = key === "mechanics" ? "mechanics" : key.replace(/^EN/, "EN ").replace(/^IS(?=\d)/, "IS ");
  return [name, clause, key === "mechanics" ? undefined : `(${basisText[basis]})`].filter(Boolean).join(" ");
}

function kindOf({ part, typed }: TargetInput): FoundArgument["kind"] {
  if (part !== undefined) return "part";
  return typed ? "typed" : "cell";
}

/** What a function asks for; of a particular case also what stands in the place of its arguments. */
function askedOf({ formula, particular }: Rule): readonly (readonly [string, Parameter])[] {
  if (!particular) return Object.entries(formula.params);
  const whole = formulas.find(({ id }) => id === formula.id)!.params;
  const more = Object.entries(formula.params).filter(([name]) => !(name in whole));
  return [...Object.entries(whole), ...more];
}

function argumentsOf(book: Book, match: Match): readonly FoundArgument[] {
  const { rule, target, order, scales } = match;
  const { fixed } = writtenOf(book, match);
  return askedOf(rule).flatMap(([name, parameter]): FoundArgument[] => {
    if (fixed[name] !== undefined)
      return [{ name, symbol: parameter.symbol, text: parameter.text, from: fixed[name], kind: "part", unit: "–" }];
    const choice = rule.choices[name];
    if (choice !== undefined && parameter.kind === "choice") {
      const text = parameter.values.find(({ value }) => value === choice)?.text ?? "";
      return [
        { name, symbol: parameter.symbol, text: parameter.text, from: String(choice), kind: "choice", unit: text },
      ];
    }
    return rule.inputs.flatMap(({ name: own, column, quantity }, j): FoundArgument[] => {
      if (own !== name && column?.of !== name) return [];
      const input = target.inputs[order[j]!]!;
      return [
        {
          name: own,
          symbol: quantity.symbol,
          text: quantity.text,
          from: inputText(book, input, target.cell.sheet),
          kind: kindOf(input),
          unit: match.other?.j === j ? match.other.unit : scaleName(quantity, scales[j]!),
          ...(scales[j]! < 0 && { turned: true as const }),
        },
      ];
    });
  });
}

/** A match as it is told. */
export function found(
  book: Book,
  match: Match,
  agreement: Agreement,
  differences: readonly Difference[],
  { others = [], open = [], offered }: Partial<Pick<Rulefound, "others" | "open" | "offered">> = {},
): Rulefound {
  const { rule, target } = match;
  return {
    id: rule.formula.id,
    summary: rule.formula.summary,
    source: citation(rule.formula, rule.choices),
    arguments: argumentsOf(book, match),
    resultUnit: match.other?.unit ?? scaleName(rule.result, match.out),
    resultTurned: match.out < 0,
    evidence: {
      points: agreement.points,
      agreeing: agreement.agreeing.filter(Boolean).length,
      largest: agreement.largest,
      followed: target.cut.steps
        .filter(({ key }) => key !== target.cell.key)
        .map(({ key }) => cellText(book, key, target.cell.sheet)),
    },
    differences,
    offered: offered ?? offeredFormula(book, match),
    others,
    open,
  };
}
