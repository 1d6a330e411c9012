import { nameOfPart, type Mark, type Part } from "../../../src/checker/index.ts";

const stateWords = {
  "stale: values changed": "values changed since",
  "stale: formulas changed": "formulas changed since, with the values they had",
  astray: "no mark of Sign off: a word that does not follow the inputs beside it",
  unreadable: "no mark of Sign off: typed by hand",
} as const;

/** Whose mark it is, and what is the matter with one that does not hold. */
export function markText({ by, date, text, state }: Mark): string {
  if (state === "unreadable" || state === "astray") return `“${text}”: ${stateWords[state]}`;
  return state === "holds" ? `${by} ${date}` : `${by} ${date}, ${stateWords[state]}`;
}

/** The mark of a part, where it has one. */
export const markOf = (part: Part, marks: readonly Mark[]): Mark | undefined =>
  marks.find((m) => m.part.first === part.first && m.part.kind === part.kind);

/** What was done last with a mark. */
export interface Done {
  readonly what: "marked" | "taken off";
  readonly part: Part;
}

/** What came of it, by the marks as they stand now: one that was put there may be stale since, or gone. */
export function doneText({ what, part }: Done, marks: readonly Mark[]): string {
  const mark = markOf(part, marks);
  const name = nameOfPart(part);
  if (!mark) return what === "taken off" ? `The mark at ${name} is off.` : `No mark stands at ${name} any more.`;
  return mark.state === "holds" ? `${mark.by} ${mark.date} stands at ${name}.` : `At ${name}: ${markText(mark)}.`;
}
