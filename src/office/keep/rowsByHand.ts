import { cellAt, type Address } from "../../cells/index.ts";
import type { Recognised } from "../../checker/index.ts";
import { columns, plainSymbol, says, type Anatomy, type Block, type Item, type Row } from "../../sheet/index.ts";

/** A row added by hand: what stands in it, and the item it stands behind. */
export interface AddedRow {
  readonly now: number;
  readonly id: string;
  /** Undefined where it is no row of a template: `fault` then says why. */
  readonly content?: "row" | "note";
  readonly fault?: string;
  readonly behind: Behind | undefined;
}

/** The item of a block that a row stands behind; without an item, at the beginning of the block. */
export interface Behind {
  readonly block: Block;
  readonly item?: Item;
  readonly working: boolean;
  /** The row added before it behind the same item, whose id it then stands behind. */
  readonly added?: string;
}

/** How people changed the rows of a sheet. */
export interface RowsByHand {
  readonly added: readonly AddedRow[];
  /** Items that stand elsewhere now. */
  readonly moved: readonly { readonly item: Row; readonly block: Block; readonly now: number; readonly to: Behind }[];
  /** Items of which every row is gone. */
  readonly gone: readonly { readonly item: Item; readonly block: Block }[];
  readonly goneBlocks: readonly Block[];
  /** Rows gone of an item that still stands: planned rows, with the item. */
  readonly halfGone: readonly { readonly item: Item; readonly rows: readonly number[] }[];
  /** The planned row that stands in a row now, those moved by hand included. */
  readonly rowPlanned: (now: number) => number | undefined;
  readonly rowNow: (planned: number) => number | undefined;
}

/** What stands in a row of the sheet, by the plan's columns. */
export function contentAt({ snapshot, columnNow }: Recognised, row: number, column: number) {
  const now = columnNow(column);
  return now === undefined ? { value: null, text: "" } : cellAt(snapshot, row, now);
}

export const textAt = (recognised: Recognised, row: number, column: number): string => {
  const { value, formula } = contentAt(recognised, row, column);
  return formula === undefined ? String(value ?? "").trim() : "";
};

const holds = ({ snapshot }: Recognised, row: number): boolean =>
  (snapshot.cells[row] ?? []).some(
    ({ value, formula, error }) => formula !== undefined || error !== undefined || (value !== null && value !== ""),
  );

export function rowsByHand(recognised: Recognised, anatomy: Anatomy): RowsByHand {
  const { plan, snapshot } = recognised;
  const gone = new Map<Item, { block: Block; rows: number[]; notes: number; all: number }>();
  const goneBlocks: Block[] = [];
  for (let row = 0; row < plan.rows; row++) {
    const owner = anatomy.ownerAt(row);
    if (!owner) continue;
    const isGone = recognised.rowNow(row) === undefined;
    if (!owner.item) {
      if (isGone && owner.first === row && !owner.working) goneBlocks.push(owner.block);
      continue;
    }
    const known = gone.get(owner.item) ?? { block: owner.block, rows: [], notes: 0, all: 0 };
    known.all++;
    const part = anatomy.partAt({ row, column: columns.description });
    const isNote = part?.of === "table" && part.what === "note";
    if (isGone && isNote) known.notes++;
    else if (isGone) known.rows.push(row);
    gone.set(owner.item, known);
  }
  const wholly = [...gone].filter(([, { rows, notes, all }]) => rows.length + notes === all);
  const inserted = Array.from({ length: snapshot.rows }, (_, row) => row).filter(
    (row) => recognised.rowPlanned(row) === undefined && holds(recognised, row) && row < lastPlanned(recognised),
  );
  const moves = new Map<number, number>();
  const movedItems = new Map<Item, number>();
  for (const row of inserted) {
    const found = wholly.find(([item]) => !movedItems.has(item) && "id" in item && isRow(recognised, row, item));
    if (!found) continue;
    movedItems.set(found[0], row);
    moves.set(row, found[1].rows[0]!);
  }
  const byNow = (now: number): number | undefined => moves.get(now) ?? recognised.rowPlanned(now);
  const back = new Map([...moves].map(([now, planned]) => [planned, now] as const));
  const taken = new Set(plan.meanings.map(({ id }) => id.toLowerCase()));
  const ids = new Set([...taken, ...idsOf(recognised)]);
  const added: AddedRow[] = [];
  const addedBehind = (row: number): Behind | undefined => {
    for (let above = row - 1; above >= 0; above--) {
      const before = added.find(({ now }) => now === above);
      if (before?.content && before.behind) return { ...before.behind, added: before.id };
      const planned = byNow(above);
      const owner = planned === undefined ? undefined : anatomy.ownerAt(planned);
      if (owner) return { block: owner.block, ...(owner.item && { item: owner.item }), working: owner.working };
    }
    return undefined;
  };
  for (const row of inserted)
    if (!moves.has(row)) added.push(addedRow(recognised, anatomy, row, byNow, addedBehind(row), ids));
  return {
    added,
    moved: [...movedItems].map(([item, now]) => ({
      item: item as Row,
      block: gone.get(item)!.block,
      now,
      to: addedBehind(now)!,
    })),
    gone: wholly.flatMap(([item, { block }]) => (movedItems.has(item) ? [] : [{ item, block }])),
    goneBlocks,
    halfGone: [...gone].flatMap(([item, { rows, notes, all }]) =>
      rows.length > 0 && rows.length + notes < all ? [{ item, rows }] : [],
    ),
    rowPlanned: byNow,
    rowNow: (planned) => back.get(planned) ?? recognised.rowNow(planned),
  };
}

function lastPlanned({ plan, rowNow }: Recognised): number {
  return Math.max(...Array.from({ length: plan.rows }, (_, row) => rowNow(row) ?? -1));
}

/** Every id of a template, in small letters, of other configurations too. */
function idsOf({ template }: Recognised): readonly string[] {
  return template.blocks.flatMap(({ items }) =>
    items.flatMap((item) => {
      if ("table" in item) return item.columns.map(({ id }) => id.toLowerCase());
      return "id" in item ? [item.id.toLowerCase()] : [];
    }),
  );
}

/** Whether a row of the sheet is that item: by the sheet's own name, else by what it says. */
function isRow(recognised: Recognised, now: number, item: Row): boolean {
  const area = recognised.snapshot.names.get(`kb_${item.id}`.toLowerCase());
  if (area?.row === now && area.rows === 1) return true;
  const { text, symbol } = says(item);
  return (
    textAt(recognised, now, columns.description) === text &&
    textAt(recognised, now, columns.symbol) === (symbol === "–" ? "" : plainSymbol(symbol))
  );
}

function addedRow(
  recognised: Recognised,
  anatomy: Anatomy,
  row: number,
  rowPlanned: (now: number) => number | undefined,
  behind: Behind | undefined,
  ids: Set<string>,
): AddedRow {
  const fault = (why: string): AddedRow => ({ now: row, id: "", behind, fault: why });
  if (!behind) return fault("it stands above the first block");
  if (behind.block.front) return fault("it stands on the first page, whose rows the template lays out");
  if (inside(anatomy, row, rowPlanned))
    return fault(
      "it stands inside a table, whose number of rows follows from the configuration, or between the lines of one row",
    );
  const words = textAt(recognised, row, columns.description);
  const value = contentAt(recognised, row, columns.value);
  const hasValue = value.formula !== undefined || (value.value !== null && value.value !== "") || value.error;
  if (words === "") return fault("it has no description in the column of descriptions");
  if (!hasValue && textAt(recognised, row, columns.unit) === "") return { now: row, id: "", content: "note", behind };
  const at: Address = { row, column: recognised.columnNow(columns.value) ?? columns.value };
  const id = freeId(nameAt(recognised, at) ?? idFrom(textAt(recognised, row, columns.symbol), words), ids);
  ids.add(id.toLowerCase());
  return { now: row, id, content: "row", behind };
}

/** Whether rows of one table stand above and below. */
function inside(anatomy: Anatomy, row: number, rowPlanned: (now: number) => number | undefined): boolean {
  const next = (step: 1 | -1): Item | undefined => {
    for (let i = 1; i < 200; i++) {
      const planned = rowPlanned(row + step * i);
      if (planned !== undefined) return anatomy.ownerAt(planned)?.item;
    }
    return undefined;
  };
  const [above, below] = [next(-1), next(1)];
  return above !== undefined && above === below;
}

/** A name that somebody gave the cell. */
function nameAt({ snapshot }: Recognised, at: Address): string | undefined {
  for (const [name, area] of snapshot.names)
    if (area?.sheet === snapshot.sheet && area.row === at.row && area.column === at.column && area.rows === 1)
      return name.replace(/^kb_/, "");
  return undefined;
}

/** "g_add" becomes gadd; without a symbol "weight of the rails" weightOfTheRails. */
function idFrom(symbol: string, words: string): string {
  const greek: Readonly<Record<string, string>> = { γ: "gamma", μ: "mu", σ: "sigma", α: "alpha", β: "beta", φ: "phi" };
  const plain = (text: string): string => [...text.normalize("NFKD")].map((letter) => greek[letter] ?? letter).join("");
  const ofSymbol = plain(symbol).replace(/[^A-Za-z0-9]/g, "");
  if (/^[A-Za-z]/.test(ofSymbol)) return ofSymbol.slice(0, 40);
  const parts = plain(words)
    .split(/[^A-Za-z0-9]+/)
    .filter((part) => part !== "");
  const joined = parts
    .map((part, i) => (i === 0 ? part.toLowerCase() : part[0]!.toUpperCase() + part.slice(1).toLowerCase()))
    .join("")
    .slice(0, 40);
  return /^[A-Za-z]/.test(joined) ? joined : `row${joined}`;
}

function freeId(wanted: string, ids: ReadonlySet<string>): string {
  const base = wanted.replace(/[^A-Za-z0-9_]/g, "") || "row";
  if (!ids.has(base.toLowerCase())) return base;
  for (let i = 2; ; i++) if (!ids.has(`${base}${i}`.toLowerCase())) return `${base}${i}`;
}
