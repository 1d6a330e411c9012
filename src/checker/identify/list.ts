import { a1, type Place } from "../../cells/index.ts";
import { ended } from "../../typeset/index.ts";
import type { Finding, Rulefound, Verdict } from "./finding.ts";

/** What was found of the formulas of a sheet, or of those selected. */
export interface IdentifiedList {
  readonly sheet: string;
  readonly findings: readonly Finding[];
  /** Formulas that call the library's functions: they say themselves what they compute. */
  readonly ours: number;
}

export const verdictsInOrder = ["nearly", "identified", "failed", "unknown"] as const satisfies readonly Verdict[];

export const verdictWords: Readonly<Record<Verdict, { readonly title: string; readonly one: string }>> = {
  nearly: { title: "Nearly a known rule", one: "nearly" },
  identified: { title: "Identified", one: "identified" },
  failed: { title: "Could not be looked at", one: "could not be looked at" },
  unknown: { title: "Not recognised", one: "not recognised" },
};

export function countsOf({ findings }: IdentifiedList): Readonly<Record<Verdict, number>> {
  const of = (verdict: Verdict): number => findings.filter((f) => f.verdict === verdict).length;
  return { identified: of("identified"), nearly: of("nearly"), failed: of("failed"), unknown: of("unknown") };
}

/** The outcome in one sentence. */
export function countsText(list: IdentifiedList): string {
  const { identified, nearly, failed, unknown } = countsOf(list);
  const total = list.findings.length;
  const ours = list.ours > 0 ? `; ${list.ours} more call the library's own functions` : "";
  const faults = failed > 0 ? `, ${failed} could not be looked at` : "";
  const formulas = total === 1 ? "formula" : "formulas";
  return `${total} hand-typed ${formulas}: ${identified} identified, ${nearly} nearly, ${unknown} not recognised${faults}${ours}.`;
}

/** Says of formulas that are steps of an identified one that they are; alone they are too short to be told. */
export function withSteps(findings: readonly Finding[]): readonly Finding[] {
  const stepsOf = new Map<string, string>();
  for (const { place, found } of findings)
    for (const step of found?.evidence.followed ?? []) stepsOf.set(`${place.sheet}\n${step}`, a1(place));
  return findings.map((finding) => {
    const of = stepsOf.get(`${finding.place.sheet}\n${a1(finding.place)}`);
    if (finding.verdict !== "unknown" || of === undefined) return finding;
    return { ...finding, because: `a step of ${of}` };
  });
}

/** "1.2 % too high"; empty where it makes no difference. */
export function effectText(effect: number | undefined): string {
  if (effect === undefined) return "";
  const size = Math.abs(effect);
  if (size < 5e-6) return "no difference with the sheet's numbers";
  const way = effect > 0 ? "too high" : "too low";
  // Of another sign, or many times as much: no share says that.
  if (size >= 9 || effect <= -1) return `${Number((1 + effect).toPrecision(3))} times the rule's value`;
  return `${Number((100 * size).toPrecision(2))} % ${way}`;
}

/** What a function gives and in which unit the formula has it, without a stop: "Basic value of the transmission length; in m". */
export function givenText({ summary, resultUnit, resultTurned }: Rulefound): string {
  const unit = resultUnit === "–" ? "" : `; in ${resultUnit}`;
  // The function's own unit is none of the formula's.
  const what = unit === "" ? summary : summary.replace(/, in \S+$/, "");
  return `${what}${unit}${resultTurned ? ", with the opposite sign" : ""}`;
}

/** A text as a sentence; nothing of nothing. */
export const asSentence = (text: string): string =>
  text === "" ? "" : ended(`${text[0]!.toUpperCase()}${text.slice(1)}`);

/** What was tried, in a sentence. */
export function evidenceText({ found }: Finding): string {
  if (!found) return "";
  const { points, agreeing, largest, followed } = found.evidence;
  if (agreeing === 0) return "compared by its powers and by its value with the sheet's numbers";
  const at = agreeing === points ? `at all ${points} points tried` : `at ${agreeing} of ${points} points tried`;
  const difference = largest === 0 ? "no difference" : `largest difference ${largest.toExponential(1)}`;
  const through = followed.length > 0 ? `, followed through ${followed.join(", ")}` : "";
  return `agrees ${at} (${difference})${through}`;
}

/** Rule and what differs, or why there is none, in a sentence or two. */
export function outcomeText(finding: Finding): string {
  const { found, because = "", possibly } = finding;
  if (!found) return possibly ? `${because}; possibly ${possibly.join(", ")}` : because;
  const differences = found.differences.map(({ says, effect }) =>
    [says, effectText(effect)].filter(Boolean).join(": "),
  );
  return [...differences, ...found.open.map((text) => text.replace(/\.$/, ""))].join("; ");
}

export const placeWords = ({ row, column }: Place): string => a1({ row, column });

export const limitsOfIdentifying =
  "Formulas are evaluated at drawn inputs and compared with every function of the library; texts beside cells decide " +
  "between alternatives that the numbers leave open. That a formula is identified says what it computes, not that the rule " +
  "is the right one there. Not recognised is a normal answer: most formulas of a sheet are no rule of the library, and " +
  "some that are one are written in a way that is not known.";
