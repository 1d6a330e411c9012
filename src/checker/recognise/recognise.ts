import { type Address, cellAt, holds, normalNow, normalPlanned, type Snapshot } from "../../cells/index.ts";
import { takeSnapshot } from "../book/takeSnapshot.ts";
import type { Host } from "../../hosts/index.ts";
import {
  faultOfInput,
  filled,
  skeletonOf,
  type Inputs,
  type Meaning,
  type Plan,
  type Template,
} from "../../sheet/index.ts";
import { isKnownTemplate, loadKnownTemplate } from "../../templates/offices.ts";
import { align } from "./align.ts";
import { columnsNow } from "./columns.ts";
import { headOf } from "./head.ts";
import type { InputFault, Recognised } from "./recognised.ts";
import { likeness, plannedTraits, traitsNow, type RowTraits } from "./rows.ts";

/** The shape inputs as the sheet was built with them: the value kept beside each, else the one that stands there, else the default. */
function shapeOf(snapshot: Snapshot, template: Template): Inputs {
  return Object.fromEntries(
    template.shape.map((input) => {
      const fits = (value: unknown): value is string | number =>
        input.choices
          ? input.choices.some((c) => c.value === value)
          : typeof value === "number" &&
            Number.isInteger(value) &&
            value >= (input.min ?? -Infinity) &&
            value <= (input.max ?? Infinity);
      const named = snapshot.names.get(`kb_${input.id}`.toLowerCase());
      const row = named
        ? named.row
        : snapshot.cells.findIndex((cells) => cells.some(({ value }) => value === input.text));
      // From the right: what was kept as built stands behind the value.
      const found =
        row < 0
          ? undefined
          : [...(snapshot.cells[row] ?? [])]
              .reverse()
              .find(({ formula, value }) => formula === undefined && fits(value))?.value;
      return [input.id, (found ?? input.default) as string | number];
    }),
  );
}

/** Extra likeness where one of the sheet's names says that the rows are the same. */
const byName = 6;

/** Rows of the plan with the rows that the sheet's own names give them. */
function rowsByName(snapshot: Snapshot, plan: Plan): ReadonlyMap<number, ReadonlySet<number>> {
  const out = new Map<number, Set<number>>();
  for (const { name, row, rows } of plan.names) {
    const area = snapshot.names.get(name.toLowerCase());
    if (area?.rows === rows)
      for (let i = 0; i < rows; i++) out.set(row + i, (out.get(row + i) ?? new Set()).add(area.row + i));
  }
  return out;
}

/** Where each row of the plan stands now, or -1. */
function rowsNow(snapshot: Snapshot, plan: Plan, columns: readonly (number | undefined)[]): Int32Array {
  const planned = plannedTraits(plan);
  const named = rowsByName(snapshot, plan);
  const read = cachedReading(snapshot, planned.changing, columns);
  const likenessOf = (p: number, n: number): number =>
    likeness(planned.rows[p]!, read(n, p)) + (named.get(p)?.has(n) ? byName : 0);
  // A row is read as the one it is planned as, leaving out what changes there: by its name, else by counting on from the last one named.
  const plannedByName = new Map([...named].flatMap(([p, now]) => [...now].map((n) => [n, p] as const)));
  let shift = 0;
  const keys = Array.from({ length: snapshot.rows }, (_, row) => {
    const p = plannedByName.get(row);
    if (p !== undefined) shift = p - row;
    return read(row, Math.min(plan.rows - 1, Math.max(0, row + shift))).key;
  });
  const first = align(
    planned.rows.map(({ key }) => key),
    keys,
    likenessOf,
  );
  // Nothing inserted or deleted; what is planned below the last filled row is empty.
  if (first.every((n, p) => n === p || (n === -1 && p >= snapshot.rows))) return first;
  const paired = new Set(first);
  if (!first.includes(-1) && keys.every((_, n) => paired.has(n))) return first;
  return refined(snapshot, plan, columns, first, likenessOf);
}

/**
 * Where rows were inserted or deleted, rows of one table look alike: what their formulas refer to tells which of them
 * is which. References into the
 * rows' own tables are read by the first pairing, so that it is done twice.
 */
function refined(
  snapshot: Snapshot,
  plan: Plan,
  columns: readonly (number | undefined)[],
  first: Int32Array,
  likenessOf: (p: number, n: number) => number,
): Int32Array {
  const formulasNow = snapshot.cells.map((cells, row) =>
    cells.map(({ formula, value }) =>
      formula === undefined ? String(value ?? "") : normalNow(formula, snapshot.sheet, row),
    ),
  );
  const keysNow = formulasNow.map((cells) => cells.join("\u0001").replace(/\u0001+$/, ""));
  let pairs = first;
  for (let pass = 0; pass < 2; pass++) {
    const rows = pairs;
    const moves = {
      row: (p: number) => ((rows[p] ?? -1) < 0 ? undefined : rows[p]),
      column: (c: number) => columns[c],
    };
    const formulas = Array.from({ length: plan.rows }, (): string[] => []);
    for (const { row, column, formula, value } of plan.cells) {
      const c = columns[column];
      if (c !== undefined)
        formulas[row]![c] = formula === undefined ? String(value ?? "") : normalPlanned(formula, moves, row);
    }
    const keys = formulas.map((cells) =>
      Array.from(cells, (text) => text ?? "")
        .join("\u0001")
        .replace(/\u0001+$/, ""),
    );
    const same = (p: number, n: number): number =>
      formulas[p]!.reduce(
        (sum, text, c) => sum + (text !== undefined && text.startsWith("=") && text === formulasNow[n]![c] ? 2 : 0),
        0,
      );
    pairs = align(keys, keysNow, (p, n) => likenessOf(p, n) + same(p, n));
  }
  return pairs;
}

/** Reads rows of the sheet as rows of the plan, each once. */
function cachedReading(
  snapshot: Snapshot,
  changing: readonly ReadonlySet<number>[],
  columns: readonly (number | undefined)[],
): (row: number, as: number) => RowTraits {
  const cache = new Map<string, RowTraits>();
  return (row, as) => {
    const key = `${row} ${[...(changing[as] ?? [])].join()}`;
    let known = cache.get(key);
    if (!known) cache.set(key, (known = traitsNow(snapshot, row, columns, changing[as])));
    return known;
  };
}

/** The inverse of where things stand now. */
function planned(now: ArrayLike<number | undefined>): ReadonlyMap<number, number> {
  const out = new Map<number, number>();
  for (let i = 0; i < now.length; i++) {
    const n = now[i];
    if (n !== undefined && n >= 0) out.set(n, i);
  }
  return out;
}

/** Recognises a sheet that has been read as one of these templates; undefined where it is of none of them. */
export function recogniseAmong(snapshot: Snapshot, known: readonly Template[]): Recognised | undefined {
  const head = headOf(snapshot, (id) => known.some((t) => t.id === id));
  const template = head && known.find(({ id }) => id === head.templateId);
  if (!head || !template) return undefined;
  const skeleton = skeletonOf(template, shapeOf(snapshot, template));
  const columns = columnsNow(snapshot, skeleton.plan);
  const rows = rowsNow(snapshot, skeleton.plan, columns);
  const rowPlanned = planned(rows);
  const columnPlanned = planned(columns);
  const now = ({ row, column }: Address): Address | undefined => {
    const r = rows[row] ?? -1;
    const c = columns[column];
    return r < 0 || c === undefined ? undefined : { row: r, column: c };
  };

  const faults: InputFault[] = [];
  const values = skeleton.inputs.map((input) => {
    const at = now(input.at);
    if (!at) return null;
    const { value, error } = cellAt(snapshot, at.row, at.column);
    const given = typeof value === "boolean" ? String(value).toUpperCase() : value;
    const fault = error ? `shows ${error.code}` : faultOfInput(given, input);
    if (!fault) return given;
    faults.push({ id: input.id, at, fault });
    return null;
  });
  const plan = filled(skeleton, values);
  const meanings = new Map<number, Meaning[]>();
  for (const meaning of plan.meanings)
    for (let r = meaning.at.row; r < meaning.at.row + meaning.at.rows; r++)
      meanings.set(r, [...(meanings.get(r) ?? []), meaning]);
  return {
    snapshot,
    head,
    template,
    plan,
    inputs: plan.inputs,
    inputCells: skeleton.inputs,
    faults,
    rowNow: (row) => ((rows[row] ?? -1) < 0 ? undefined : rows[row]),
    rowPlanned: (row) => rowPlanned.get(row),
    columnNow: (column) => columns[column],
    columnPlanned: (column) => columnPlanned.get(column),
    meaningAt: (at) => {
      const row = rowPlanned.get(at.row);
      const column = columnPlanned.get(at.column);
      return row === undefined || column === undefined
        ? undefined
        : meanings.get(row)?.find((m) => holds(m.at, { row, column }));
    },
  };
}

/** Recognises a sheet that has been read, with the template that it says it is of. */
export async function recogniseSnapshot(snapshot: Snapshot): Promise<Recognised | undefined> {
  const id = headOf(snapshot, isKnownTemplate)?.templateId;
  return id !== undefined && isKnownTemplate(id) ? recogniseAmong(snapshot, [await loadKnownTemplate(id)]) : undefined;
}

/** Whether a sheet says at its head that a template of this version built it: a report's summary or a list does not. */
export async function isBuilt(host: Host, sheet: string): Promise<boolean> {
  const id = headOf(await takeSnapshot(host, sheet), isKnownTemplate)?.templateId;
  return id !== undefined && isKnownTemplate(id);
}

/**
 * Recognises a sheet as one that a template built; undefined where it does not say that it is, or of which template
 * this version has none.
 */
export async function recognise(host: Host, sheet: string): Promise<Recognised | undefined> {
  return recogniseSnapshot(await takeSnapshot(host, sheet));
}
