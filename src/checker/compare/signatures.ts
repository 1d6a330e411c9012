import { cellAt } from "../../cells/index.ts";
import { columns } from "../../sheet/index.ts";
import { readMarks, type Mark, type MarkState } from "../marks/marks.ts";
import { partsAt } from "../marks/parts.ts";
import type { Recognised } from "../recognise/recognised.ts";
import { standing } from "../recognise/standing.ts";

const holds: Readonly<Record<MarkState, string>> = {
  holds: "",
  "stale: values changed": ", before values changed",
  "stale: formulas changed": ", before formulas changed",
  astray: ", for other cells",
  unreadable: ", with a seal that cannot be read",
};

/**
 * Tells in a sentence who has signed a row of the plan, by its own mark, its table's or its block's. What else may stand
 * in the column of marks – a word that follows inputs, something typed, a value of a wide table – is nobody's signature.
 */
export function signatures(recognised: Recognised): (row: number) => string {
  let read: readonly Mark[] | undefined;
  return (row) => {
    const { item, block } = partsAt(recognised.plan, row);
    const own = [item, block].flatMap((part) => (part ? [part] : []));
    const marks = (read ??= readMarks(recognised).filter(({ by }) => by !== "")).filter(({ part }) =>
      own.some(({ first }) => first === part.first),
    );
    if (marks.length > 0)
      return marks
        .map(({ part, by, date, state }) => `The ${part.kind} is signed: ${by} ${date}${holds[state]}.`)
        .join(" ");
    const { kind, markRow } = item ?? block ?? { kind: "row" };
    const at = markRow === undefined ? undefined : standing(recognised, { row: markRow, column: columns.mark });
    const text = at ? cellAt(recognised.snapshot, at.row, at.column).text.trim() : "";
    return `Nobody has signed the ${kind}${text === "" ? "" : `; its mark says “${text}”`}.`;
  };
}
