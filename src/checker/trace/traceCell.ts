import {
  functionsIn,
  ourFunction,
  type PlacedArea,
  placeText,
  readFormula,
  type ReadFormula,
  type WrittenArgument,
  type WrittenReference,
} from "../../cells/index.ts";
import { reasonOf, spills } from "../../core/index.ts";
import type { CellContent, Host, Place } from "../../hosts/index.ts";
import { traceCall, type SpilledResult, type TracedCall } from "./call.ts";
import { Knowledge, labelAt } from "./knowledge.ts";
import { unlikeItsFormula } from "./holds.ts";
import { resultMisfit } from "./resultUnit.ts";
import { aroundFor, type Label } from "./labels.ts";
import { originsOf, type Origin, type OriginOf } from "./origin.ts";
import { Reading } from "./reading.ts";
import { branchesOf, branchOfCell, type Branch } from "./tree.ts";

/** The part of a result that spills from another cell. */
export interface PartOfSpill {
  readonly anchor: Place;
  /** "C4", seen from the cell. */
  readonly address: string;
  /** From 0. */
  readonly row: number;
  readonly column: number;
  readonly call: TracedCall & { readonly spilled: SpilledResult };
}

/** What stands in a cell and behind it. */
export interface TracedCell {
  readonly place: Place;
  readonly address: string;
  readonly content: CellContent;
  readonly label?: Label;
  readonly read?: ReadFormula;
  /** Why the formula cannot be read. */
  readonly unreadable?: string;
  readonly precedents: readonly Origin[];
  readonly originOf: OriginOf;
  /** Our calls from the outside in. */
  readonly calls: readonly TracedCall[];
  readonly partOf?: PartOfSpill;
  /** Why the value is not what the formula gives with the cells as they stand. */
  readonly unlike?: string;
  /** Where the unit beside the cell is not that of the result. */
  readonly misfit?: string;
}

/** How far from its anchor a cell of a spilled result is looked for. */
const spillReach = { rows: 400, columns: 12 } as const;

/** Traces cells of a workbook, and keeps what is known of its sheets from one to the next. */
export class Tracer {
  readonly knowledge: Knowledge;
  constructor(private readonly host: Host) {
    this.knowledge = new Knowledge(host);
  }

  /** Everything behind the value of a cell. */
  trace(place: Place): Promise<TracedCell> {
    return this.#trace(place, new Reading(this.host), true);
  }

  /** What the cells of a range hold and are called, empty ones left out: as branches of a tree. */
  async cellsOf(area: PlacedArea, from: string, most = 200): Promise<readonly Branch[]> {
    const reading = new Reading(this.host);
    await reading.add([{ ...area, rows: Math.min(area.rows, 1000) }]);
    const places: Place[] = [];
    for (let r = area.row; r < area.row + area.rows && places.length < most; r++) {
      for (let c = area.column; c < area.column + area.columns && places.length < most; c++) {
        const { value, error } = reading.at(area.sheet, r, c);
        if (value !== null || error) places.push({ sheet: area.sheet, row: r, column: c });
      }
    }
    return this.branchesAt(places, from, reading);
  }

  /** Cells anywhere in the workbook, with what they are called, as branches of a tree. */
  async branchesAt(
    places: readonly Place[],
    from: string,
    reading = new Reading(this.host),
  ): Promise<readonly Branch[]> {
    await reading.add(places.flatMap((at) => aroundFor(at, true).map((a) => ({ ...a, sheet: at.sheet }))));
    const sheets = new Map(
      await Promise.all(
        [...new Set(places.map(({ sheet }) => sheet))].map(async (sheet) => {
          const rows = places
            .filter((at) => at.sheet === sheet)
            .slice(0, 1)
            .map((at) => ({ ...aroundFor(at, false)[0]!, sheet }));
          return [sheet, await this.knowledge.current(sheet, rows, reading)] as const;
        }),
      ),
    );
    return places.map((at) =>
      branchOfCell(
        at,
        reading.at(at.sheet, at.row, at.column),
        labelAt(sheets.get(at.sheet), reading, at.sheet, at.row, at.column),
        from,
      ),
    );
  }

  /** What stands behind a branch of a tree. */
  async behind(branch: Branch, from: string): Promise<readonly Branch[]> {
    if (!branch.place || !branch.opens) return [];
    return branch.kind === "range"
      ? this.cellsOf(branch.place, from)
      : branchesOf(await this.trace(branch.place), from);
  }

  async #trace({ sheet, row, column }: Place, reading: Reading, spillsToo: boolean): Promise<TracedCell> {
    const place = { sheet, row, column };
    const around = aroundFor(place, true).map((a) => ({ ...a, sheet }));
    await reading.add(around);
    const failed = reading.failed.get(sheet);
    if (failed !== undefined) throw new Error(failed);
    const content = reading.at(sheet, row, column);
    const label = labelAt(
      await this.knowledge.current(sheet, around.slice(0, 1), reading),
      reading,
      sheet,
      row,
      column,
    );
    const base = {
      place,
      address: placeText({ ...place, rows: 1, columns: 1 }, sheet),
      content,
      ...(label && { label }),
      precedents: [],
      calls: [],
      originOf: () => undefined,
    };
    if (content.formula === undefined) {
      // A typed text or an input of a template comes from nowhere else.
      const partOf =
        spillsToo && typeof content.value === "number" && label?.from !== "template"
          ? await this.#anchorOf(place, content, reading)
          : undefined;
      return partOf ? { ...base, partOf } : base;
    }
    let read: ReadFormula;
    try {
      read = readFormula(content.formula);
    } catch (problem) {
      return { ...base, unreadable: reasonOf(problem) };
    }
    const origins = await originsOf(this.host, this.knowledge, reading, read.references, sheet, (anchor) =>
      this.#sizeOfSpill(anchor, reading),
    );
    const originOf: OriginOf = (text) => origins.get(text.toUpperCase());
    const traced = new Map<number, TracedCall>();
    // From the inside out: what stands inside a call is one of its arguments.
    for (let i = read.calls.length - 1; i >= 0; i--) {
      traced.set(
        i,
        await traceCall(read.calls[i]!, referencesOf, { host: this.host, place, content, reading, originOf, traced }),
      );
    }
    const unlike = unlikeItsFormula(content, place, reading, originOf);
    const misfit = resultMisfit(read.tree, label, content);
    return {
      ...base,
      ...(unlike !== undefined && { unlike }),
      ...(misfit !== undefined && { misfit }),
      read,
      originOf,
      precedents: read.references.map((r) => originOf(r.text)!),
      calls: read.calls.map((_, i) => traced.get(i)!),
    };
  }

  /** The cells a spilled result fills from its anchor; undefined where no function of ours stands there. */
  async #sizeOfSpill(anchor: PlacedArea, reading: Reading): Promise<PlacedArea | undefined> {
    const result = await this.#resultAt(anchor, reading);
    return (
      result && {
        sheet: anchor.sheet,
        row: anchor.row,
        column: anchor.column,
        rows: result.spilled.rows.length,
        columns: result.spilled.rows[0]?.length ?? 0,
      }
    );
  }

  async #resultAt(anchor: Place, reading: Reading): Promise<PartOfSpill["call"] | undefined> {
    const { calls, content } = await this.#trace(anchor, reading, false);
    // Where the host shows an error its result fills no cells.
    const whole = content.error ? undefined : calls.find((c) => c.call.whole);
    return whole?.spilled ? { ...whole, spilled: whole.spilled } : undefined;
  }

  /** The cell above or left whose result this number is a part of. */
  async #anchorOf(place: Place, content: CellContent, reading: Reading): Promise<PartOfSpill | undefined> {
    const top = Math.max(0, place.row - spillReach.rows);
    const left = Math.max(0, place.column - spillReach.columns);
    const area = {
      sheet: place.sheet,
      row: top,
      column: left,
      rows: place.row - top + 1,
      columns: place.column - left + 1,
    };
    await reading.add([area]);
    for (let r = place.row; r >= top; r--) {
      for (let c = place.column; c >= left; c--) {
        const { formula } = reading.at(place.sheet, r, c);
        if (formula === undefined || !fillsCells(formula)) continue;
        const call = await this.#resultAt({ sheet: place.sheet, row: r, column: c }, reading);
        const value = call?.spilled.rows[place.row - r]?.[place.column - c];
        if (call && value !== undefined && typeof content.value === "number")
          return {
            anchor: { sheet: place.sheet, row: r, column: c },
            address: placeText({ sheet: place.sheet, row: r, column: c, rows: 1, columns: 1 }, place.sheet),
            row: place.row - r,
            column: place.column - c,
            call,
          };
      }
    }
    return undefined;
  }
}

const fills = new Set(spills.map(({ id }) => id));

/** Whether a function of ours that fills several cells stands in a formula; a quick look. */
function fillsCells(formula: string): boolean {
  return functionsIn(formula).some((name) => fills.has(ourFunction(name) ?? ""));
}

function referencesOf(written: WrittenArgument): readonly string[] {
  if (written.kind !== "expression" && written.kind !== "reference" && written.kind !== "call") return [];
  const all: readonly WrittenReference[] = readFormula(
    `=${written.kind === "expression" ? written.evaluate : written.text}`,
  ).references;
  return all.map(({ text }) => text);
}

const tracers = new WeakMap<Host, Tracer>();

/** The tracer of a host, with what it knows of its sheets. */
export function tracerOf(host: Host): Tracer {
  let tracer = tracers.get(host);
  if (!tracer) tracers.set(host, (tracer = new Tracer(host)));
  return tracer;
}

/** Everything behind the value of a cell: what it is called, its formula, what that refers to, and every call of ours step by step. */
export function traceCell(host: Host, place: Place): Promise<TracedCell> {
  return tracerOf(host).trace(place);
}
