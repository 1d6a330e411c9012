import {
  Block,
  CannotCompute,
  type CellArea,
  compile,
  Fault,
  type Frame,
  type Reader,
  type Scalar,
  type Value,
} from "../../cells/index.ts";
import type { Argument } from "../../core/index.ts";
import { ourFunctions } from "../../../functions/index.ts";
import type { OriginOf } from "./origin.ts";
import type { Reading } from "./reading.ts";

/** A value evaluated apart from the host, or the error it has. */
export interface Evaluated {
  readonly value: Argument;
  readonly error?: string;
}

const errorOf = (fault: Fault): string => (fault.message ? `${fault.code}: ${fault.message}` : fault.code);

function handed(value: Value): Evaluated {
  if (value instanceof Block) {
    const rows = Array.from({ length: value.rows }, (_r, r) =>
      Array.from({ length: value.columns }, (_c, c) => value.at(r, c)),
    );
    const fault = rows.flat().find((s): s is Fault => s instanceof Fault);
    if (fault) return { value: null, error: errorOf(fault) };
    const cells = rows as readonly (readonly Exclude<Scalar, Fault>[])[];
    return { value: cells.length === 1 && cells[0]!.length === 1 ? cells[0]![0] : cells };
  }
  return value instanceof Fault ? { value: null, error: errorOf(value) } : { value };
}

/**
 * Evaluates a formula, or a part of one, from cells that have been read (`as` another number, where that is given; each
 * step to 15 digits, where asked);
 * undefined where that cannot be done here.
 */
export function evaluateApart(
  expression: string,
  at: { readonly sheet: string; readonly row: number; readonly column: number },
  reading: Reading,
  originOf: OriginOf,
  as: (value: number, sheet: number, row: number, column: number) => number = (value) => value,
  fifteenDigits = false,
): Evaluated | undefined {
  const sheets = [at.sheet];
  const number = (name: string): number => {
    const known = sheets.findIndex((s) => s.toLowerCase() === name.toLowerCase());
    return known >= 0 ? known : sheets.push(name) - 1;
  };
  const reader: Reader = {
    where: {
      sheetNumber: number,
      nameArea: (name, sheet): CellArea | undefined => {
        const place = (originOf(name) ?? originOf(`${sheets[sheet]}!${name}`))?.place;
        return (
          place && {
            sheet: number(place.sheet),
            row: place.row,
            column: place.column,
            rows: place.rows,
            columns: place.columns,
          }
        );
      },
      used: () => {
        throw new CannotCompute("whole columns are not read here");
      },
    },
    read: (sheet, row, column): Scalar => {
      if (!reading.has(sheets[sheet]!, row, column)) throw new CannotCompute("a cell it needs was not read");
      const { value, error } = reading.at(sheets[sheet]!, row, column);
      return error
        ? new Fault(error.code, error.message)
        : typeof value === "number"
          ? as(value, sheet, row, column)
          : value;
    },
  };
  try {
    const frame: Frame = { reader, sheet: 0, row: at.row, column: at.column, locals: [], fifteenDigits };
    return handed(compile(`=${expression}`, at.row, at.column, ourFunctions).run(frame));
  } catch (problem) {
    if (problem instanceof CannotCompute) return undefined;
    throw problem;
  }
}
