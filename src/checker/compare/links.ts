import { cellAt, holds, piecesOf, placeOf, type PlacedArea } from "../../cells/index.ts";
import type { Host, SheetName } from "../../hosts/index.ts";
import { sourceSheetId, type PlannedCell } from "../../sheet/index.ts";
import type { Recognised } from "../recognise/recognised.ts";
import { outlineOf } from "../recognise/rows.ts";
import { standing } from "../recognise/standing.ts";
import { takeSnapshot } from "../book/takeSnapshot.ts";
import { headOf } from "../recognise/head.ts";
import { labels } from "./cells.ts";
import type { Finding } from "./finding.ts";

/** What a formula refers to; undefined where it has lost that. */
function referredTo(formula: string, sheet: string): readonly (PlacedArea | undefined)[] {
  return piecesOf(formula).flatMap(({ kind, text }) => {
    if (kind === "error") return [undefined];
    return kind === "cells" || kind === "name" ? [placeOf(text, sheet)] : [];
  });
}

/** The sheets that are referred to, with their names and the template they say they are of. */
class Sources {
  readonly #known = new Map<string, Promise<{ readonly names: readonly SheetName[]; readonly template: string }>>();
  constructor(
    private readonly host: Host,
    private readonly sheets: readonly string[],
  ) {}

  on(sheet: string) {
    const stored = this.sheets.find((name) => name.toLowerCase() === sheet.toLowerCase());
    if (stored === undefined) return undefined;
    const known = this.#known.get(stored) ?? this.#read(stored);
    this.#known.set(stored, known);
    return known;
  }

  async #read(sheet: string) {
    const snapshot = await takeSnapshot(this.host, sheet);
    const head = headOf(snapshot, () => false);
    return { names: await this.host.namesOn(sheet), template: head?.templateId ?? "" };
  }
}

/** Whether each linked cell refers to the cell it should on a sheet of the source template, and all to the same sheet. */
export async function linkFindings(recognised: Recognised, host: Host): Promise<readonly Finding[]> {
  const { plan, snapshot, template } = recognised;
  if (!plan.source) return [];
  const sources = new Sources(host, await host.sheetNames());
  const labelOf = labels(recognised);
  const out: Finding[] = [];
  const used = new Set<string>();
  for (const cell of plan.cells) {
    const at = cell.link && standing(recognised, cell);
    const formula = at && cellAt(snapshot, at.row, at.column).formula;
    if (!at || formula === undefined) continue;
    const what = await faultOfLink(cell, formula, recognised, sources, used);
    if (what === undefined) continue;
    const expected = `${template.source!.name}, ${cell.link.name}${cell.link.index > 0 ? `, row ${cell.link.index + 1}` : ""}`;
    out.push({ kind: "link broken", grade: "serious", what, at, label: labelOf(cell), expected, found: formula });
  }
  if (used.size > 1)
    out.push({
      kind: "link broken",
      grade: "serious",
      what: `The linked cells refer to several sheets: ${[...used].join(", ")}. Link the sheet again under Build.`,
    });
  const [only] = used;
  if (used.size === 1 && only !== undefined) out.push(...saysAnother(recognised, only));
  return out;
}

/** The sheet says which sheet it is linked to; its links follow when that is renamed, its words in the grid alone. */
function saysAnother(recognised: Recognised, source: string): readonly Finding[] {
  const name = recognised.inputCells.find(({ id }) => id === sourceSheetId);
  const at = name && standing(recognised, name.at);
  const said = at && cellAt(recognised.snapshot, at.row, at.column).value;
  const cell = recognised.plan.cells.find(({ row, column }) => row === name?.at.row && column === name.at.column);
  if (!at || !cell || typeof said !== "string" || said.trim().toLowerCase() === source.toLowerCase()) return [];
  return [
    {
      kind: "text changed",
      grade: "note",
      what: "The sheet names another sheet than the one it is linked to. Type the name of the linked one.",
      at,
      label: labels(recognised)(cell),
      expected: source,
      found: said,
    },
  ];
}

async function faultOfLink(
  { link, formula: planned }: PlannedCell,
  formula: string,
  { snapshot, template }: Recognised,
  sources: Sources,
  used: Set<string>,
): Promise<string | undefined> {
  const places = referredTo(formula, snapshot.sheet);
  const [first] = places;
  if (!first || places.includes(undefined))
    return "The link is broken: the cell it referred to is gone. Build the source sheet, then link again under Build.";
  if (outlineOf(formula) !== outlineOf(planned!))
    return "The link was changed: it no longer shows the source's cell as it is.";
  const source = await sources.on(first.sheet);
  if (!source)
    return `The link leads to “${first.sheet}”, which is not in this workbook. Copy that sheet too, then link again under Build.`;
  used.add(first.sheet);
  if (source.template !== template.source!.template.id)
    return `The link leads to “${first.sheet}”, which is no sheet of ${template.source!.template.id}.`;
  const area = source.names.find(({ name }) => name.toLowerCase() === link!.name.toLowerCase())?.area;
  if (!area) return `The link leads to “${first.sheet}”, which has lost the name ${link!.name}.`;
  const right = { sheet: area.sheet, row: area.row + link!.index, column: area.column, rows: 1, columns: 1 };
  const same = places.every(
    (place) =>
      place?.sheet.toLowerCase() === right.sheet.toLowerCase() &&
      place.rows * place.columns === 1 &&
      holds(right, place),
  );
  return same ? undefined : "The link refers to another cell of the source sheet.";
}
