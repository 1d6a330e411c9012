import type { AgainstHost } from "../../cells/index.ts";
import { readMarks, type MarkState } from "../marks/marks.ts";
import type { Recognised } from "../recognise/recognised.ts";
import { plannedAt } from "../recognise/standing.ts";
import { labels, shownResult } from "./cells.ts";
import type { Finding } from "./finding.ts";

const otherValue =
  "The cell shows another value than its formula gives: it has not been recalculated, or the program computes it differently.";
const turnsOnLastDigits =
  "The result turns on the last digits of a value that goes into this cell, which the program computes differently. " +
  "Take it as undecided: the value is at its limit.";

/** Cells of the sheet whose value is not what their formula gives when it is computed apart from the host. */
export function valueFindings(recognised: Recognised, { differences }: AgainstHost): readonly Finding[] {
  const labelOf = labels(recognised);
  // Which of several errors a formula shows first differs between programs; no value is hidden by that.
  const counts = ({ place, passedOver, host, computed }: AgainstHost["differences"][number]): boolean =>
    !passedOver && !(host.error && computed.error) && place.sheet === recognised.snapshot.sheet;
  return differences.filter(counts).map(({ place: { row, column }, host, computed, byLastDigits }): Finding => {
    const planned = plannedAt(recognised, { row, column });
    const label = planned ? labelOf(planned) : "";
    return {
      kind: "value not recomputed",
      grade: byLastDigits ? "look" : "serious",
      at: { row, column },
      ...(label && { label }),
      what: byLastDigits ? turnsOnLastDigits : otherValue,
      expected: shownResult(computed),
      found: shownResult(host),
    };
  });
}

/** Formulas that could not be computed apart from the host: their values rest on the program alone. */
export function uncomputedFindings(recognised: Recognised, { notCompared }: AgainstHost): readonly Finding[] {
  const here = notCompared.filter(({ place }) => place.sheet === recognised.snapshot.sheet);
  const [first] = here;
  if (!first) return [];
  const { row, column } = first.place;
  return [
    {
      kind: "value not recomputed",
      grade: "look",
      at: { row, column },
      what:
        `${here.length === 1 ? "A formula" : `${here.length} formulas`} from here on could not be computed a ` +
        `second time (${first.why}): ${here.length === 1 ? "its value rests" : "their values rest"} on the ` +
        "program alone.",
      found: first.formula,
    },
  ];
}

const marked: Partial<Readonly<Record<MarkState, string>>> = {
  "stale: values changed": "Values have changed since the checker marked them.",
  "stale: formulas changed": "Formulas have changed since the checker marked them, though they give the same values.",
  astray:
    "The word in place of a mark follows other cells than the inputs beside it, or a value that they cannot take.",
  unreadable: "What stands in place of a checker's mark is none: it does not say what was checked.",
};

/** Checkers' marks that do not hold any more. */
export function markFindings(recognised: Recognised): readonly Finding[] {
  return readMarks(recognised).flatMap(({ part, state, at, text }): readonly Finding[] => {
    const what = marked[state];
    return what === undefined
      ? []
      : [
          {
            kind: "mark stale",
            grade: "look",
            at,
            label: `${part.item} ${part.description}`.trim(),
            what,
            found: text,
          },
        ];
  });
}
