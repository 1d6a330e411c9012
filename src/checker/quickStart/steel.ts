import { isPost, type Inputs } from "../../sheet/index.ts";
import type { Sizing } from "./answers.ts";
import { layoutFor } from "./firstGuess.ts";
import type { Layout } from "./layout.ts";
import { rowInputs, stackedRows } from "./rowsOnBed.ts";
import { propertiesOf } from "./sections.ts";
import { isBar, kindOf } from "./steelKind.ts";
import { spacingOf, type StrandRow } from "./strandLayout.ts";
import type { Task } from "./task.ts";
import { costOf, tendonInputs } from "./tendonLayout.ts";

/** A layout of tendons or strands: its inputs, and in words. */
export interface Steel {
  readonly inputs: Inputs;
  readonly strands: number;
  /** To compare layouts by. */
  readonly cost: number;
  readonly words: string;
}

export function tendonSteel({ answers, dimensions, sigj }: Task, layout: Layout, e: number): Steel {
  const { yb } = propertiesOf(answers.section, dimensions);
  const { count, strands } = layout;
  return {
    inputs: tendonInputs(layout, e, yb, answers, dimensions, sigj),
    strands: count * strands,
    cost: costOf(layout),
    words: isBar(answers)
      ? `${count} bar${count === 1 ? "" : "s"} ${answers.product}, straight, each in a duct of its own, ` +
        `stressed to ${sigj} MPa, e = ${Math.round(e)} mm`
      : `${count} tendon${count === 1 ? "" : "s"} of ${strands} ${answers.product}, stressed to ${sigj} MPa, ` +
        `e = ${Math.round(e)} mm at midspan`,
  };
}

export function rowSteel({ answers, dimensions, sigj }: Task, rows: readonly StrandRow[]): Steel {
  const { yb } = propertiesOf(answers.section, dimensions);
  const strands = rows.reduce((sum, { n }) => sum + n, 0);
  const e = yb - rows.reduce((sum, { n, yMid }) => sum + n * yMid, 0) / strands;
  const debonded = rows.filter(({ debond }) => debond > 0);
  return {
    inputs: rowInputs(rows, sigj, answers.L, spacingOf(kindOf(answers)).apart),
    strands,
    cost: strands,
    words:
      `${strands} ${answers.product} in ${rows.length} row${rows.length === 1 ? "" : "s"}, stressed to ${sigj} MPa, ` +
      `e = ${Math.round(e)} mm at midspan` +
      (debonded[0]
        ? `, ${debonded.reduce((sum, { n }) => sum + n, 0)} debonded for ${debonded[0].debond} m at each end`
        : "") +
      (rows.some(({ yMid, yEnd }) => yMid !== yEnd) ? ", deflected" : ""),
  };
}

/** The same layout with a strand fewer in each tendon, or in the fullest row; undefined where another layout would follow. */
export function oneFewer(steel: Steel): (Steel & { readonly change: string }) | undefined {
  const strands = steel.inputs["strands"] as readonly number[];
  const most = Math.max(...strands);
  if (most < 2) return undefined;
  if (steel.inputs["rows"] === undefined) {
    const less = strands.map((n) => n - 1);
    return { ...steel, inputs: { ...steel.inputs, strands: less }, change: "one strand fewer in each tendon" };
  }
  const at = strands.lastIndexOf(most);
  const less = strands.map((n, i) => (i === at ? n - 1 : n));
  return { ...steel, inputs: { ...steel.inputs, strands: less }, change: `one fewer in row ${at + 1}` };
}

/** Tendons or rows of strands in a layout, with an eccentricity at midspan, mm. */
export function steelOf(task: Task, layout: Layout, e: number): Steel {
  const { template, answers, dimensions } = task;
  if (isPost(template)) return tendonSteel(task, layout, e);
  const { yb } = propertiesOf(answers.section, dimensions);
  return rowSteel(task, stackedRows(layout, e, yb, answers));
}

/** Tendons or rows of strands as a sheet for choosing and sizing has found them. */
export function sizedSteel(task: Task, { strands, tendons, e }: Sizing): Steel {
  const { template, answers, dimensions } = task;
  const layout = isPost(template)
    ? { count: tendons, strands: Math.ceil(strands / tendons) }
    : layoutFor(template, strands, answers, dimensions);
  return steelOf(task, layout, e);
}
