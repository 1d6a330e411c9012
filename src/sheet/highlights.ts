import type { Area } from "../cells/index.ts";
import { stale } from "../core/index.ts";
import { bandRow, columns, firstRow } from "./columns.ts";
import type { Layout } from "./layout.ts";
import type { Highlight } from "./plan.ts";
import type { PlanCells } from "./planCells.ts";
import { nameOf, noValue } from "./links.ts";
import { conflict } from "./relations.ts";
import { isRecord } from "./shape.ts";

const tones: readonly (readonly [string, Highlight["tone"]])[] = [
  ["OK", "good"],
  ["FAIL", "bad"],
  ["OUT OF RANGE", "bad"],
  [conflict, "bad"],
  ["REBUILD", "bad"],
  [noValue, "bad"],
  ["UNUSUAL", "open"],
  ["LIMIT MISSING", "open"],
  ["INPUT MISSING", "open"],
  ["OPEN", "open"],
  ["MISSING", "open"],
  ["INCOMPLETE", "open"],
  ["WARNINGS", "open"],
  ["CHANGED", "open"],
];

/** Whether it is a word of a verdict or status, which the sheet colours. */
export const isVerdictWord = (value: unknown): boolean => tones.some(([word]) => word === value);

/** What a linked sheet shows under this name is its source's verdict. */
const overallName = nameOf("overall");

/** The words that are coloured, and where. */
export function highlightsOf({ rows, tables }: Layout, { overall, all }: PlanCells): readonly Highlight[] {
  const down = (column: number): Area => ({ row: firstRow, column, rows: rows - firstRow, columns: 1 });
  const areas: readonly Area[] = [
    down(columns.verdict),
    ...(overall
      ? [
          { ...overall, rows: 1, columns: 1 },
          { row: bandRow, column: 0, rows: 1, columns: 1 },
        ]
      : []),
    ...all
      .filter(({ link }) => link?.name === overallName)
      .map(({ row, column }) => ({ row, column, rows: 1, columns: 1 })),
  ];
  const marked: readonly Area[] = [
    down(columns.mark),
    ...[...tables.values()]
      .filter(({ shaped }) => isRecord(shaped))
      .map(({ shaped, bands }) => {
        const last = shaped.columns.at(-1)!;
        return { row: bands[last.band]!.first, column: last.at, rows: shaped.rows, columns: 1 };
      }),
  ];
  return [
    ...areas.flatMap((area) => tones.map(([text, tone]): Highlight => ({ ...area, text, tone }))),
    ...marked.map((area): Highlight => ({ ...area, text: stale, begins: true, tone: "bad" })),
  ];
}
