import { cellAt } from "../../cells/index.ts";
import type { Recognised } from "../recognise/recognised.ts";
import { markFormula, readMarkFormula, stateOf, type EnteredCell, type MarkState } from "./marks.ts";
import { wholeSheet } from "./parts.ts";

/** The columns of the revision table by their ids in the template. */
const ids = {
  name: "revName",
  what: "revWhat",
  date: "revDate",
  by: "revBy",
  checkedBy: "revChecked",
  state: "revState",
} as const;
type Field = keyof typeof ids;
const fields = Object.keys(ids) as readonly Field[];

/** A line of the revision table with something in it. */
export interface Revision {
  readonly name: string;
  readonly what: string;
  readonly date: string;
  readonly by: string;
  readonly checkedBy: string;
  /** Counted from 0. */
  readonly line: number;
  /** Whether the sheet still is what this revision sealed; undefined where it was superseded or never sealed. */
  readonly state?: MarkState;
  readonly seal?: string;
}

export interface RevisionTable {
  readonly revisions: readonly Revision[];
  /** The lines there are. */
  readonly lines: number;
  /** The next line to fill: after the last that is filled; undefined where there is none. */
  readonly next?: number;
  /** A name for the next revision. */
  readonly suggested: string;
}

function places({ plan, rowNow, columnNow }: Recognised):
  | {
      readonly lines: number;
      readonly at: (line: number, field: Field) => { readonly row: number; readonly column: number } | undefined;
    }
  | undefined {
  const areas = new Map(
    fields.flatMap((field) => {
      const area = plan.meanings.find(({ id }) => id === ids[field])?.at;
      return area ? [[field, area] as const] : [];
    }),
  );
  const first = areas.get("name");
  if (!first || areas.size < fields.length) return undefined;
  return {
    lines: first.rows,
    // Counted from the headings: empty lines at the end of a sheet are no part of what is read of it.
    at: (line, field) => {
      const headings = rowNow(first.row - 1);
      const column = columnNow(areas.get(field)!.column);
      return headings === undefined || column === undefined ? undefined : { row: headings + 1 + line, column };
    },
  };
}

/** "A" after "", "B" after "A", "P03" after "P02"; nothing where the next one does not follow. */
function nameAfter(name: string): string {
  if (name === "") return "A";
  const [, head, number] = /^(.*?)(\d+)$/.exec(name) ?? [];
  if (number !== undefined) return `${head ?? ""}${String(Number(number) + 1).padStart(number.length, "0")}`;
  return /^[A-Ya-y]$/.test(name) ? String.fromCharCode(name.charCodeAt(0) + 1) : "";
}

/** The revision table; undefined where the sheet has none. */
export function readRevisions(recognised: Recognised): RevisionTable | undefined {
  const table = places(recognised);
  if (!table || table.at(0, "name") === undefined) return undefined;
  const revisions = Array.from({ length: table.lines }, (_, line): Revision | undefined => {
    const content = (field: Field) => {
      const at = table.at(line, field);
      return at && cellAt(recognised.snapshot, at.row, at.column);
    };
    const text = (field: Field): string => content(field)?.text ?? "";
    if (fields.every((field) => text(field) === "")) return undefined;
    const state = content("state");
    const sealed = readMarkFormula(state?.formula)?.seal;
    return {
      line,
      name: text("name"),
      what: text("what"),
      date: text("date"),
      by: text("by"),
      checkedBy: text("checkedBy"),
      ...(state &&
        sealed !== undefined && {
          seal: sealed,
          state: stateOf(state, sealed, wholeSheet(recognised.plan), recognised),
        }),
    };
  }).filter((revision) => revision !== undefined);
  const next = (revisions.at(-1)?.line ?? -1) + 1;
  return {
    revisions,
    lines: table.lines,
    ...(next < table.lines && { next }),
    suggested: nameAfter(revisions.at(-1)?.name ?? ""),
  };
}

export type NewRevision = Omit<Revision, "line" | "state" | "seal">;

/** So much of a superseded seal is kept, to compare an older copy of the sheet with. */
const keptDigits = 12;

/**
 * The cells that fill the next line with the seal of the whole sheet. The line before is superseded: its seal becomes text.
 * @throws NotMarkable where the sheet shows an error
 */
export function revisionCells(recognised: Recognised, revision: NewRevision): readonly EnteredCell[] {
  const table = places(recognised);
  const known = readRevisions(recognised);
  if (!table || known?.next === undefined)
    throw new RangeError("the revision table has no empty line after the last one filled");
  const line = known.next;
  const formula = markFormula(wholeSheet(recognised.plan), recognised, `rev ${revision.name}`, revision.date);
  const superseded = known.revisions
    .filter(({ seal }) => seal !== undefined)
    .map(({ line: before, seal }) => ({
      ...table.at(before, "state")!,
      value: `superseded ${seal!.slice(0, keptDigits)}`,
    }));
  return [
    ...superseded,
    ...fields.map((field) => ({
      ...table.at(line, field)!,
      ...(field === "state" ? { formula } : { value: revision[field] }),
    })),
  ];
}
