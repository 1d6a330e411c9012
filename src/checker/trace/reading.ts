import type { PlacedArea } from "../../cells/index.ts";
import { reasonOf } from "../../core/index.ts";
import type { CellContent, Host } from "../../hosts/index.ts";

const empty: CellContent = { value: null, text: "" };

/** Cells that need not be read for fewer calls of the host. */
const slack = 600;

interface Box {
  top: number;
  left: number;
  bottom: number;
  right: number;
}
const size = (b: Box): number => (b.bottom - b.top) * (b.right - b.left);

/** Areas near one another as one, so that the host is asked few times. */
function gathered(areas: readonly PlacedArea[]): readonly PlacedArea[] {
  const sheets = new Map<string, Box[]>();
  for (const { sheet, row, column, rows, columns } of [...areas].sort((a, b) => a.row - b.row)) {
    const boxes = sheets.get(sheet) ?? [];
    sheets.set(sheet, boxes);
    const own: Box = { top: row, left: column, bottom: row + rows, right: column + columns };
    const near = boxes.find((b) => {
      const both: Box = {
        top: Math.min(b.top, own.top),
        left: Math.min(b.left, own.left),
        bottom: Math.max(b.bottom, own.bottom),
        right: Math.max(b.right, own.right),
      };
      if (size(both) > size(b) + size(own) + slack) return false;
      Object.assign(b, both);
      return true;
    });
    if (!near) boxes.push(own);
  }
  return [...sheets].flatMap(([sheet, boxes]) =>
    boxes.map((b) => ({ sheet, row: b.top, column: b.left, rows: b.bottom - b.top, columns: b.right - b.left })),
  );
}

/** Cells read so far, each once. */
export class Reading {
  readonly #boxes: { readonly area: PlacedArea; readonly cells: readonly (readonly CellContent[])[] }[] = [];
  /** Sheets that cannot be read, with why. */
  readonly failed = new Map<string, string>();
  constructor(private readonly host: Host) {}

  #has(area: PlacedArea): boolean {
    return this.#boxes.some(
      ({ area: b }) =>
        b.sheet === area.sheet &&
        area.row >= b.row &&
        area.column >= b.column &&
        area.row + area.rows <= b.row + b.rows &&
        area.column + area.columns <= b.column + b.columns,
    );
  }

  async add(areas: readonly PlacedArea[]): Promise<void> {
    const needed = gathered(
      areas.filter((a) => a.rows > 0 && a.columns > 0 && !this.failed.has(a.sheet) && !this.#has(a)),
    );
    await Promise.all(
      needed.map(async (area) => {
        try {
          const cells = await this.host.read(area.sheet, area);
          this.#boxes.push({ area, cells });
        } catch (error) {
          // A missing sheet is reported where a formula refers to it.
          this.failed.set(area.sheet, reasonOf(error));
        }
      }),
    );
  }

  /** Whether a cell was read. */
  has(sheet: string, row: number, column: number): boolean {
    return this.#has({ sheet, row, column, rows: 1, columns: 1 });
  }

  at(sheet: string, row: number, column: number): CellContent {
    for (const { area, cells } of this.#boxes)
      if (
        area.sheet === sheet &&
        row >= area.row &&
        column >= area.column &&
        row < area.row + area.rows &&
        column < area.column + area.columns
      )
        return cells[row - area.row]![column - area.column]!;
    return empty;
  }

  block({ sheet, row, column, rows, columns }: PlacedArea): readonly (readonly CellContent[])[] {
    return Array.from({ length: rows }, (_r, r) =>
      Array.from({ length: columns }, (_c, c) => this.at(sheet, row + r, column + c)),
    );
  }
}
