import { cellAt } from "../../cells/index.ts";
import type { Recognised } from "../recognise/recognised.ts";
import { plannedAt, standing } from "../recognise/standing.ts";
import { labels, shown } from "./cells.ts";
import type { Finding, FindingKind } from "./finding.ts";
import { signatures } from "./signatures.ts";

/** Findings that tell of no change to the row: who signed it, what is still to be entered, how its value follows. */
const noChanges: ReadonlySet<FindingKind> = new Set([
  "mark stale",
  "input unusual",
  "input missing",
  "value not recomputed",
]);

/**
 * Findings with those of rows that the template locks told as such, and locked inputs that hold another value than
 * their default. `findings` as they are for a template that locks nothing.
 */
export function withLocked(recognised: Recognised, findings: readonly Finding[]): readonly Finding[] {
  const { template, plan, snapshot } = recognised;
  const locked = new Set(template.locked);
  if (locked.size === 0) return findings;
  const whose = template.office ? `The template of ${template.office}` : "The template";
  const areas = plan.meanings.filter(({ id }) => locked.has(id));
  const labelOf = labels(recognised);
  const signed = signatures(recognised);
  const holding = (row: number, column: number): boolean =>
    areas.some(({ at }) =>
      at.rows === 1 ? row === at.row : column === at.column && row >= at.row && row < at.row + at.rows,
    );
  const told = findings.map((finding): Finding => {
    const planned =
      finding.at && finding.grade !== "note" && !noChanges.has(finding.kind)
        ? plannedAt(recognised, finding.at)
        : undefined;
    if (!planned || !holding(planned.row, planned.column)) return finding;
    return {
      ...finding,
      kind: "locked row changed",
      grade: "serious",
      what: `${whose} does not allow this row to be changed: ${finding.kind}. ${finding.what} ${signed(planned.row)}`,
    };
  });
  const gone = areas.flatMap(({ at, item, description }): readonly Finding[] =>
    recognised.rowNow(at.row) === undefined
      ? [
          {
            kind: "locked row changed",
            grade: "serious",
            label: `${item} ${description}`.trim(),
            what: `${whose} does not allow this row to be changed: it was deleted.`,
            found: "missing",
          },
        ]
      : [],
  );
  const typed = recognised.inputCells.flatMap((input): readonly Finding[] => {
    const at = locked.has(input.id) ? standing(recognised, input.at) : undefined;
    if (!at || input.spec.default === undefined) return [];
    const { value } = cellAt(snapshot, at.row, at.column);
    if (value === input.spec.default) return [];
    return [
      {
        kind: "locked row changed",
        grade: "serious",
        at,
        label: labelOf(input.at),
        what: `${whose} does not allow another value here. ${signed(input.at.row)}`,
        expected: shown(input.spec.default),
        found: shown(value),
      },
    ];
  });
  return [...told, ...gone, ...typed];
}
