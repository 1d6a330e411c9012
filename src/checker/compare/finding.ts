import type { Address } from "../../cells/index.ts";

/** How grave a finding is: it may change or hide a result; someone should look at it; good to know. */
export type Grade = "serious" | "look" | "note";

export const gradeWords: Readonly<
  Record<Grade, { readonly title: string; readonly one: string; readonly means: string }>
> = {
  serious: { title: "Serious", one: "serious", means: "may change a result or hide one" },
  look: { title: "To look at", one: "to look at", means: "differs from the template, or changes how the sheet reads" },
  note: { title: "Notes", one: "note", means: "no difference in what is computed" },
};

export type FindingKind =
  | "typed over"
  | "formula missing"
  | "formula changed"
  | "constant changed"
  | "arguments in another order"
  | "range changed"
  | "other cells"
  | "lost cells"
  | "link broken"
  | "number changed"
  | "unit changed"
  | "symbol changed"
  | "label changed"
  | "text changed"
  | "caution changed"
  | "input not allowed"
  | "input unusual"
  | "input missing"
  | "input linked"
  | "shape changed"
  | "row deleted"
  | "row inserted"
  | "column deleted"
  | "column inserted"
  | "cell added"
  | "own cells"
  | "row hidden"
  | "column hidden"
  | "value hidden by format"
  | "value hidden by colour"
  | "value hidden by size"
  | "format changed"
  | "protection off"
  | "cell open"
  | "cell locked"
  | "entry rule missing"
  | "entry rule changed"
  | "colour missing"
  | "colour changed"
  | "colour added"
  | "template version"
  | "functions version"
  | "hash"
  | "name lost"
  | "name moved"
  | "value not recomputed"
  | "mark stale"
  | "locked row changed";

/** Something in which a sheet is not what its template would build today. */
export interface Finding {
  readonly kind: FindingKind;
  readonly grade: Grade;
  /** A sentence. */
  readonly what: string;
  /** Where it stands now, or stood next to; undefined for the sheet as a whole. */
  readonly at?: Address;
  /** How many cells below each other it is about, from `at` down; 1 where it says nothing. */
  readonly rows?: number;
  /** Item and description of the row or column. */
  readonly label?: string;
  /** Which member of a table it is, or the first of them: "tendon 2, point 3". */
  readonly member?: string;
  readonly expected?: string;
  readonly found?: string;
}

/** The gravest first. */
export const gradesInOrder: readonly Grade[] = ["serious", "look", "note"];

/** The gravest first, then from the top of the sheet down. */
export function inOrder(findings: readonly Finding[]): readonly Finding[] {
  return [...findings].sort(
    (a, b) =>
      gradesInOrder.indexOf(a.grade) - gradesInOrder.indexOf(b.grade) ||
      (a.at?.row ?? -1) - (b.at?.row ?? -1) ||
      (a.at?.column ?? -1) - (b.at?.column ?? -1),
  );
}

/** Findings of one kind and grade in cells below each other become one. */
export function gathered(findings: readonly Finding[]): readonly Finding[] {
  const out: Finding[] = [];
  const last = new Map<string, number>();
  for (const finding of findings) {
    const { at } = finding;
    const key = `${finding.kind} ${finding.grade} ${at?.column ?? ""} ${finding.label ?? ""}`;
    const before = last.get(key);
    const run = before === undefined ? undefined : out[before]!;
    if (at && run?.at && run.at.row + (run.rows ?? 1) === at.row) {
      out[before!] = { ...run, rows: (run.rows ?? 1) + (finding.rows ?? 1) };
      continue;
    }
    last.set(key, out.length);
    out.push(finding);
  }
  return out;
}
