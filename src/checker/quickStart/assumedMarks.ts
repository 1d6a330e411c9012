import { assumedWord, proposedWord, type Entered, type Plan } from "../../sheet/index.ts";
import { wordMarks } from "../marks/wordMarks.ts";

/**
 * The word "assumed" in the column of marks, for each row or table that holds one of these inputs, until another value
 * is typed; "proposed" where one of them was found by the program.
 */
export function assumedMarks(
  plan: Plan,
  assumed: ReadonlySet<string>,
  proposed: ReadonlySet<string> = new Set(),
): readonly Entered[] {
  return wordMarks(
    plan,
    new Map([
      [proposedWord, (id: string) => proposed.has(id)],
      [assumedWord, (id: string) => assumed.has(id) && !proposed.has(id)],
    ]),
  );
}
