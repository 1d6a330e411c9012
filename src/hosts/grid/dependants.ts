import { areaWithin, piecesOf, readCells, withoutPrefix, type Area } from "../../cells/index.ts";
import type { Place } from "../host/host.ts";
import type { GridWorkbook } from "./runtime.ts";
import { usedArea } from "./usedArea.ts";

/** Cells a formula mentions; without a sheet they are the formula's own sheet's. */
interface Mention extends Area {
  readonly sheet?: string;
}

interface Mentions {
  readonly areas: readonly Mention[];
  readonly names: readonly string[];
}

function areaIn(reference: string): Mention | undefined {
  const read = readCells(reference);
  return read && { ...areaWithin(read), ...(read.sheet !== undefined && { sheet: read.sheet }) };
}

function mentionsIn(formula: string): Mentions {
  const pieces = piecesOf(formula);
  return {
    areas: pieces.flatMap(({ kind, text }) => (kind === "cells" ? (areaIn(text) ?? []) : [])),
    names: pieces.flatMap(({ kind, text }) => (kind === "name" ? [text] : [])),
  };
}

/** Which cells refer to a cell, from the formulas themselves; each formula is read once, however often it is asked. */
export class Dependants {
  readonly #workbook: GridWorkbook;
  readonly #resolve: (name: string, sheetId: string) => string | undefined;
  #read = new Map<string, Mentions>();

  constructor(workbook: GridWorkbook, resolve: (name: string, sheetId: string) => string | undefined) {
    this.#workbook = workbook;
    this.#resolve = resolve;
  }

  /** In the order of sheets and cells. */
  of({ sheet, row, column }: Place): readonly Place[] {
    const out: Place[] = [];
    // What this time meets is kept for the next; formulas that are gone are not.
    const before = this.#read;
    this.#read = new Map();
    for (const other of this.#workbook.getSheets()) {
      const name = other.getSheetName();
      const used = usedArea(other);
      if (used.rows === 0) continue;
      const named = new Map<string, Mention | undefined>();
      const holds = (area: Mention | undefined): boolean =>
        area !== undefined &&
        (area.sheet ?? name).toLowerCase() === sheet.toLowerCase() &&
        row >= area.row &&
        row < area.row + area.rows &&
        column >= area.column &&
        column < area.column + area.columns;
      const ofName = (text: string): Mention | undefined => {
        if (!named.has(text)) named.set(text, areaIn(withoutPrefix(this.#resolve(text, other.getSheetId()) ?? "")));
        return named.get(text);
      };
      other
        .getRange(0, 0, used.rows, used.columns)
        .getFormulas()
        .forEach((cells, r) =>
          cells.forEach((formula, c) => {
            if (!formula) return;
            const { areas, names } = this.#mentions(formula, before);
            if (areas.some(holds) || names.some((text) => holds(ofName(text))))
              out.push({ sheet: name, row: r, column: c });
          }),
        );
    }
    return out;
  }

  #mentions(formula: string, before: ReadonlyMap<string, Mentions>): Mentions {
    const known = this.#read.get(formula);
    if (known) return known;
    const made = before.get(formula) ?? mentionsIn(formula);
    this.#read.set(formula, made);
    return made;
  }
}
