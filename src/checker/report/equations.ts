import { html, type Markup } from "../../typeset/index.ts";
import { rulesOf } from "../trace/source.ts";
import { rule } from "../trace/note.ts";
import type { TracedCell } from "../trace/traceCell.ts";
import type { Making } from "./chapter.ts";
import type { Followed } from "./followed.ts";
import { oneOfEachFormula } from "./oneOfEachFormula.ts";
import type { ReadCell, ReadSheet } from "./read.ts";

/** Where a function of ours, under one rule, is used first. */
export interface FirstUse {
  readonly id: string;
  readonly place: string;
  readonly sheet: ReadSheet;
  readonly cell: ReadCell;
}

const computedCells = ({ blocks }: ReadSheet): readonly ReadCell[] =>
  blocks.flatMap(({ items }) =>
    items.flatMap((item) => {
      if (item.kind === "computed") return [item.cell];
      if (item.kind !== "table") return [];
      return item.columns.flatMap((column) => (column.kind === "computed" ? oneOfEachFormula(column) : []));
    }),
  );

/** Each rule of the member once, where it is first used, in the order of the sheets. */
export function firstUses(sheets: readonly ReadSheet[], followed: Followed): readonly FirstUse[] {
  const known = new Set<string>();
  const uses: FirstUse[] = [];
  for (const sheet of sheets)
    for (const cell of computedCells(sheet)) {
      if (cell.content.formula === undefined) continue;
      for (const { id, place } of rulesOf(followed.read(sheet, cell.at, cell.content.formula)?.calls ?? [])) {
        const key = `${id} ${place}`;
        if (known.has(key)) continue;
        known.add(key);
        uses.push({ id, place, sheet, cell });
      }
    }
  return uses;
}

/** What computes nothing of the member has no equation to show. */
const silent = new Set(["WARNINGS", "INPUT_WARNINGS", "WARNINGS_CODE", "CHECKED", "VERSION"]);

/** So many signs of an equation fit in a column of them. */
const signsAcross = 50;

/** The equation of each rule, with the numbers of the value where it is first used. */
export async function equationsOf(uses: readonly FirstUse[], making: Making): Promise<Markup> {
  const parts: Markup[] = [];
  const traced = new Map<ReadCell, TracedCell>();
  for (const { id, place, sheet, cell } of uses) {
    let one = traced.get(cell);
    if (!one) {
      one = await making.tracer.trace({ sheet: sheet.of.snapshot.sheet, ...cell.at });
      traced.set(cell, one);
      making.traced(one);
    }
    await making.step();
    // One formula may call a function twice, with other choices.
    const call = one.calls.find((made) => rulesOf([made.call]).some((of) => of.id === id && of.place === place));
    if (!call || silent.has(id)) continue;
    const used = `${sheet.of.snapshot.sheet} ${cell.meaning.item}`;
    parts.push(rule(call, { ...making.setting, across: signsAcross }, used));
  }
  return html`<div class="kn-columns">${parts}</div>`;
}
