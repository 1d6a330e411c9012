import type { Area } from "../../cells/index.ts";
import { parseA1Ref, tokenize, tokenTypes } from "@borgar/fx";
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

const references: ReadonlySet<string> = new Set([tokenTypes.REF_RANGE, tokenTypes.REF_BEAM, tokenTypes.REF_TERNARY]);
/** Whole rows and columns reach this far. */
const end = 1_048_576;

function areaOf(reference: string): Mention | undefined {
  const read = parseA1Ref(reference.replace(/#$/, "")) as
    | {
        context?: readonly string[];
        range?: { top: number | null; left: number | null; bottom: number | null; right: number | null };
      }
    | undefined;
  if (!read?.range) return undefined;
  const { top, left, bottom, right } = read.range;
  const sheet = read.context?.at(-1);
  return {
    row: top ?? 0,
    column: left ?? 0,
    rows: (bottom ?? end) - (top ?? 0) + 1,
    columns: (right ?? end) - (left ?? 0) + 1,
    ...(sheet !== undefined && { sheet }),
  };
}

/** Which cells refer to a cell, from the formulas themselves; each formula is read once, however often it is asked. */
export class Dependants {
  readonly #workbook: GridWorkbook;
  readonly #resolve: (name: string, sheetId: string) => string | undefined;
  readonly #read = new Map<string, Mentions>();

  constructor(workbook: GridWorkbook, resolve: (name: string, sheetId: string) => string | undefined) {
    this.#workbook = workbook;
    this.#resolve = resolve;
  }

  /** In the order of sheets and cells. */
  of({ sheet, row, column }: Place): readonly Place[] {
    const out: Place[] = [];
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
        if (!named.has(text)) named.set(text, areaOf(this.#resolve(text, other.getSheetId())?.replace(/^=/, "") ?? ""));
        return named.get(text);
      };
      other
        .getRange(0, 0, used.rows, used.columns)
        .getFormulas()
        .forEach((cells, r) =>
          cells.forEach((formula, c) => {
            if (!formula) return;
            const { areas, names } = this.#mentions(formula);
            if (areas.some(holds) || names.some((text) => holds(ofName(text))))
              out.push({ sheet: name, row: r, column: c });
          }),
        );
    }
    return out;
  }

  #mentions(formula: string): Mentions {
    const known = this.#read.get(formula);
    if (known) return known;
    const tokens = tokenize(formula, { mergeRefs: true });
    const made: Mentions = {
      areas: tokens.flatMap(({ type, value }) => (references.has(type) ? (areaOf(value) ?? []) : [])),
      names: tokens.flatMap(({ type, value }) => (type === tokenTypes.REF_NAMED ? [value] : [])),
    };
    this.#read.set(formula, made);
    return made;
  }
}
