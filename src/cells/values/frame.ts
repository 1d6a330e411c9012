import { Block, type Scalar, type Value } from "./values.ts";

/** Cells of one sheet of a book, the sheet by its number. */
export interface CellArea {
  readonly sheet: number;
  readonly row: number;
  readonly column: number;
  readonly rows: number;
  readonly columns: number;
}

/** Where sheets and names of a book stand; undefined where it does not hold them. */
export interface Whereabouts {
  sheetNumber(name: string): number | undefined;
  nameArea(name: string, sheet: number): CellArea | undefined;
  used(sheet: number): { readonly rows: number; readonly columns: number };
}

/** The values of a book's cells. */
export interface Reader {
  readonly where: Whereabouts;
  read(sheet: number, row: number, column: number): Scalar;
}

/** One evaluation of a formula: the cell it stands in and what LET has named. */
export interface Frame {
  readonly reader: Reader;
  readonly sheet: number;
  readonly row: number;
  readonly column: number;
  readonly locals: Value[];
  /** Every step keeps 15 digits, as some programs have it where they compare and subtract; else all that numbers hold. */
  readonly fifteenDigits?: boolean;
}

/** A formula or a part of one, ready to be evaluated. */
export type Node = (frame: Frame) => Value;

/** Cells of a sheet as a value. */
export class Ref extends Block {
  constructor(
    private readonly reader: Reader,
    readonly area: CellArea,
  ) {
    super(area.rows, area.columns);
  }

  override at(row: number, column: number): Scalar {
    return this.reader.read(this.area.sheet, this.area.row + row, this.area.column + column);
  }

  /** Some of its cells. */
  part(row: number, column: number, rows: number, columns: number): Ref {
    return new Ref(this.reader, {
      sheet: this.area.sheet,
      row: this.area.row + row,
      column: this.area.column + column,
      rows,
      columns,
    });
  }
}

/** A native function. */
export interface NativeFunction {
  readonly min: number;
  readonly max: number;
  /** Whether it can give several cells: when one of its arguments does, always possible, or (where absent) never. */
  readonly fills?: "with" | "always";
  readonly run: (args: readonly Node[], frame: Frame) => Value;
  /** Why the cells it reads cannot be told from its formula. */
  readonly unfollowable?: string;
}
