import { areaA1, cellAt } from "../../cells/index.ts";
import { version } from "../../core/index.ts";
import type { Looks } from "../../hosts/index.ts";
import type { Recognised } from "../recognise/recognised.ts";
import { standing } from "../recognise/standing.ts";
import { labels } from "./cells.ts";
import type { Finding } from "./finding.ts";

/** Which of two versions such as 1.10.0 is newer: above 0 where the first is. */
export function newer(a: string, b: string): number {
  const [x, y] = [a, b].map((text) => text.split(".").map(Number));
  for (let i = 0; i < 3; i++) {
    const difference = (x![i] ?? 0) - (y![i] ?? 0);
    if (difference !== 0) return difference;
  }
  return 0;
}

/** Whether template and functions are those the sheet was built with. */
export function versionFindings({ head, plan }: Recognised): readonly Finding[] {
  const out: Finding[] = [];
  const { id, version: today } = plan.template;
  const step = newer(today, head.templateVersion);
  if (step > 0)
    out.push({
      kind: "template version",
      grade: "look",
      what:
        "The sheet was built with an older version of its template: differences below may come from that. " +
        "Build it again from its inputs to have the newer one.",
      expected: `${id} ${today}`,
      found: `${id} ${head.templateVersion}`,
    });
  if (step < 0)
    out.push({
      kind: "template version",
      grade: "look",
      what: "The sheet was built with a newer version of its template than this installation has. Compare it there.",
      expected: `${id} ${today}`,
      found: `${id} ${head.templateVersion}`,
    });
  if (head.functionsVersion !== version)
    out.push({
      kind: "functions version",
      grade: "look",
      what: "The sheet was built with another version of the worksheet functions than computes it now. Check its results again.",
      expected: version,
      found: head.functionsVersion || "not said",
    });
  if (step === 0 && head.hash !== plan.hash)
    out.push({
      kind: "hash",
      grade: "serious",
      what: "The content hash at the head is not that of this template and shape: head or template was changed.",
      expected: plan.hash,
      found: head.hash || "missing",
    });
  return out;
}

/** Rows, columns and values that are there but not to be seen. */
export function hiddenFindings(recognised: Recognised, looks: Looks): readonly Finding[] {
  const { snapshot, plan } = recognised;
  const labelOf = labels(recognised);
  const label = (row: number, column = 1): { readonly label?: string } => {
    const planned = recognised.rowPlanned(row);
    const text = planned === undefined ? "" : labelOf({ row: planned, column: recognised.columnPlanned(column) ?? 1 });
    return text ? { label: text } : {};
  };
  const something = (row: number): boolean =>
    (snapshot.cells[row] ?? []).some(({ value, formula }) => formula !== undefined || (value !== null && value !== ""));
  return [
    ...looks.hiddenRows
      .filter((row) => row < snapshot.rows && something(row))
      .map((row): Finding => ({
        kind: "row hidden",
        grade: "serious",
        at: { row, column: 0 },
        ...label(row),
        what: "The row is hidden or has no height.",
        expected: "shown",
        found: "hidden",
      })),
    ...looks.hiddenColumns
      .filter((column) => column < snapshot.columns)
      .map((column): Finding => ({
        kind: "column hidden",
        grade: "serious",
        at: { row: 0, column },
        what: "The column is hidden or has no width.",
        expected: "shown",
        found: "hidden",
      })),
    ...looks.sameColour
      .filter(({ row, column }) => plan.rows > 0 && cellAt(snapshot, row, column).text !== "")
      .map((at): Finding => ({
        kind: "value hidden by colour",
        grade: "serious",
        at,
        ...label(at.row, at.column),
        what: "The letters have the colour of their ground.",
        found: cellAt(snapshot, at.row, at.column).text,
      })),
    ...looks.tooSmall
      .filter(({ row, column }) => cellAt(snapshot, row, column).text !== "")
      .map((at): Finding => ({
        kind: "value hidden by size",
        grade: "serious",
        at,
        ...label(at.row, at.column),
        what: "The letters are too small to be read.",
        found: cellAt(snapshot, at.row, at.column).text,
      })),
  ];
}

/** The sheet's own names: formulas of other sheets may use them. */
export function nameFindings(recognised: Recognised): readonly Finding[] {
  const { plan, snapshot } = recognised;
  // A host that keeps no names with a copied sheet has none to compare.
  if (snapshot.names.size === 0)
    return plan.names.length > 0
      ? [
          {
            kind: "name lost",
            grade: "note",
            what:
              "The sheet has none of its names: it was copied without them. Formulas of other sheets that use them " +
              "do not find them here.",
          },
        ]
      : [];
  return plan.names.flatMap((planned): readonly Finding[] => {
    const at = standing(recognised, planned);
    if (!at) return [];
    const { row, column } = at;
    const last = recognised.rowNow(planned.row + planned.rows - 1);
    const expected = {
      row,
      column,
      rows: last === undefined ? planned.rows : last - row + 1,
      columns: planned.columns,
    };
    const area = snapshot.names.get(planned.name.toLowerCase());
    if (!area)
      return [
        {
          kind: "name lost",
          grade: "look",
          at,
          what: `The name ${planned.name} is missing or has lost its cells.`,
          expected: areaA1(expected, false),
          found: snapshot.names.has(planned.name.toLowerCase()) ? "#REF!" : "missing",
        },
      ];
    if (
      area.sheet.toLowerCase() === snapshot.sheet.toLowerCase() &&
      area.row === row &&
      area.column === column &&
      (last === undefined || area.rows === expected.rows)
    )
      return [];
    return [
      {
        kind: "name moved",
        grade: "look",
        at,
        what: `The name ${planned.name} stands for other cells.`,
        expected: areaA1(expected, false),
        found: areaA1(area, false),
      },
    ];
  });
}
