import { cellAt, sheetsIn } from "../../cells/index.ts";
import type { Host } from "../../hosts/index.ts";
import { columns, measuredWord, rootId, type InputCell } from "../../sheet/index.ts";
import { partsOf } from "../marks/parts.ts";
import { wordFormula } from "../marks/wordFormula.ts";
import { recognise } from "../recognise/recognise.ts";
import type { Recognised } from "../recognise/recognised.ts";
import { standing } from "../recognise/standing.ts";
import { measuredPairs } from "./measuredIds.ts";

/** Measured values cannot go to the stress check: the message says why and what to do. */
export class NotMeasured extends Error {
  override readonly name = "NotMeasured";
}

/** What a record gives for one input of its stress check. */
export interface MeasuredValue {
  /** "tendon 2 (lower right)" */
  readonly of: string;
  readonly text: string;
  readonly unit: string;
  readonly measured: number;
  /** What the stress check has now in that place. */
  readonly now: number | undefined;
  readonly at: { readonly row: number; readonly column: number };
}

export interface Measured {
  /** The stress-check sheet that the record is linked to. */
  readonly source: string;
  readonly values: readonly MeasuredValue[];
  /** What is still to be read: "tendon 2: jacking stress measured". */
  readonly missing: readonly string[];
  readonly verdict: string;
  /** Where "measured" will stand, in the column of marks. */
  readonly mark: { readonly row: number; readonly column: number };
  /** What stands there now. */
  readonly marked: string;
}

function columnOf(record: Recognised, id: string): readonly unknown[] {
  const meaning = record.plan.meanings.find((one) => one.id === id);
  if (!meaning) return [];
  return Array.from({ length: meaning.at.rows }, (_, i) => {
    const at = standing(record, { row: meaning.at.row + i, column: meaning.at.column });
    return at && cellAt(record.snapshot, at.row, at.column).value;
  });
}

/** The sheet that the links of a record refer to. */
function sourceOf(record: Recognised): string {
  for (const { link, ...cell } of record.plan.cells) {
    const at = link && standing(record, cell);
    const formula = at && cellAt(record.snapshot, at.row, at.column).formula;
    const [sheet] = formula === undefined ? [] : sheetsIn(formula);
    if (sheet !== undefined) return sheet;
  }
  throw new NotMeasured(`“${record.snapshot.sheet}” is linked to no sheet: link it again under Build.`);
}

const inputsOf = (check: Recognised, id: string): readonly InputCell[] =>
  check.inputCells.filter((cell) => cell.id === id);

/** What a stressing record measured, beside what its stress check has now; nothing is entered. */
export async function readMeasured(host: Host, sheet: string): Promise<Measured> {
  const record = await recognise(host, sheet);
  if (record && rootId(record.template).startsWith("second-stressing"))
    throw new NotMeasured(
      `“${sheet}” records the second stressing: the stress check takes what was measured at the first, from its record.`,
    );
  if (!record || !rootId(record.template).startsWith("stressing-record"))
    throw new NotMeasured(`“${sheet}” is no stressing record: select a cell of one, or build one under Build.`);
  const source = sourceOf(record);
  const check = (await host.sheetNames()).includes(source) ? await recognise(host, source) : undefined;
  if (check?.template.id !== record.template.source!.template.id)
    throw new NotMeasured(
      `“${source}” is no sheet of “${record.template.source!.template.title}”: link the record again.`,
    );
  const names = columnOf(record, "fbName");
  const missing: string[] = [];
  const values = measuredPairs.flatMap(({ from, to }) => {
    const cells = inputsOf(check, to);
    return columnOf(record, from).flatMap((measured, i): readonly MeasuredValue[] => {
      const cell = cells[i];
      const at = cell && standing(check, cell.at);
      const written = names[i];
      const name = typeof written === "string" || typeof written === "number" ? String(written) : "";
      const of = `${record.plan.inputs["bedLength"] === undefined ? "no." : "row"} ${i + 1}${name === "" ? "" : ` (${name})`}`;
      const text = cell?.says.text ?? to;
      if (typeof measured !== "number") missing.push(`${of}: ${text}`);
      if (typeof measured !== "number" || !cell || !at) return [];
      const now = cellAt(check.snapshot, at.row, at.column).value;
      return [{ of, text, unit: cell.says.unit, measured, now: typeof now === "number" ? now : undefined, at }];
    });
  });
  const first = inputsOf(check, measuredPairs[0].to)[0];
  const part = partsOf(check.plan)
    .flatMap(({ items }) => items)
    .find((one) => first && first.at.row >= one.first && first.at.row <= one.last && one.markRow !== undefined);
  const mark = part && standing(check, { row: part.markRow!, column: columns.mark });
  if (!mark)
    throw new NotMeasured(
      `“${source}” has no place for measured values: rows were deleted, or it is an older version. Rebuild it.`,
    );
  const { overall } = record.plan.summary;
  const at = standing(record, overall);
  return {
    source,
    values,
    missing,
    verdict: at ? cellAt(record.snapshot, at.row, at.column).text : "",
    mark,
    marked: cellAt(check.snapshot, mark.row, mark.column).text,
  };
}

/**
 * Enters what was measured into the stress check, with the mark "measured"; a sign-off of that table goes, as its values
 * change. Gives the number of values entered.
 */
export async function enterMeasured(host: Host, { source, values, mark }: Measured): Promise<number> {
  if (values.length === 0) throw new NotMeasured("Nothing is measured yet: fill in the record first.");
  const entered = values.map(({ at, measured }) => ({ ...at, value: measured }));
  await host.enterAll(source, [
    ...entered,
    { ...mark, formula: wordFormula([{ word: measuredWord, cells: entered }]) },
  ]);
  await host.recalculate();
  return values.length;
}
