import type { Area } from "../cells/index.ts";
import { fnv1a64, type Plan, type PlannedCell, type Role } from "../sheet/index.ts";

/** Of a row: rows of a sheet have no more lines than this, whatever a text asks for. */
const mostLines = 24;

/** Puts the cells of a sheet of the checker's together: their contents, the sentences over several columns and the lines they need. */
export class SheetWriter {
  readonly cells: PlannedCell[] = [];
  readonly spans: Area[] = [];
  private readonly lineCounts = new Map<number, number>();

  constructor(readonly widths: readonly number[]) {}

  private wrap(row: number, text: string, width: number): void {
    const lines = text.split("\n").reduce((sum, line) => sum + Math.max(1, Math.ceil(line.length / (width - 1))), 0);
    if (lines > (this.lineCounts.get(row) ?? 1)) this.lineCounts.set(row, Math.min(lines, mostLines));
  }

  put(row: number, column: number, role: Role, value?: string | number | boolean, format?: string): void {
    this.cells.push({
      row,
      column,
      role,
      ...(value !== undefined && value !== "" && { value }),
      ...(format !== undefined && { format }),
    });
    if (typeof value === "string") this.wrap(row, value, this.widths[column]!);
  }

  formula(row: number, column: number, role: Role, formula: string, format?: string): void {
    this.cells.push({ row, column, role, formula, ...(format !== undefined && { format }) });
  }

  /** A sentence from one column to another, both included. */
  sentence(row: number, role: Role, text: string, from: number, to: number): void {
    this.cells.push({ row, column: from, role, value: text });
    if (to > from) this.spans.push({ row, column: from, rows: 1, columns: to - from + 1 });
    this.wrap(
      row,
      text,
      this.widths.slice(from, to + 1).reduce((sum, width) => sum + width, 0),
    );
  }

  /** A row as high as the original it is copied from. */
  lines(row: number, lines: number): void {
    this.lineCounts.set(row, Math.max(lines, this.lineCounts.get(row) ?? 1));
  }

  /** How many lines a row has so far. */
  linesAt(row: number): number {
    return this.lineCounts.get(row) ?? 1;
  }

  /** The plan so far, of `rows` rows; `hashAt` is where its content hash is written. */
  plan(
    rows: number,
    {
      hashAt,
      ...rest
    }: Omit<Plan, "hash" | "inputs" | "rows" | "columns" | "widths" | "spans" | "lines" | "cells"> & {
      readonly hashAt: { readonly row: number; readonly column: number };
    },
  ): Plan {
    const hash = fnv1a64(
      JSON.stringify({
        template: rest.template,
        cells: this.cells,
        names: rest.names,
        spans: this.spans,
        charts: rest.charts,
      }),
    );
    const cells: readonly PlannedCell[] = [...this.cells, { ...hashAt, role: "label", value: hash }];
    return {
      ...rest,
      print: { ...rest.print, footer: rest.print.footer.replace("{hash}", hash) },
      hash,
      inputs: {},
      rows,
      columns: this.widths.length,
      widths: this.widths,
      spans: this.spans,
      lines: Object.fromEntries(this.lineCounts),
      cells,
    };
  }
}
