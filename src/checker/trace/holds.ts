import { agreesWithHost, Fault, differsByRounding, type Scalar, withoutPrefix } from "../../cells/index.ts";
import type { CellContent, Place } from "../../hosts/index.ts";
import { numberText } from "../../typeset/index.ts";
import { evaluateApart, type Evaluated } from "./apart.ts";
import type { OriginOf } from "./origin.ts";
import type { Reading } from "./reading.ts";

const upperLeft = ({ value }: Evaluated): Scalar =>
  Array.isArray(value) ? ((value as readonly (readonly Scalar[])[])[0]?.[0] ?? null) : (value as Scalar);

const said = (value: Scalar): string =>
  value instanceof Fault
    ? value.code
    : typeof value === "number"
      ? numberText(value)
      : typeof value === "boolean"
        ? String(value).toUpperCase()
        : value === null || value === ""
          ? "nothing"
          : `“${value}”`;

/**
 * Why a cell's value is not to be taken for what its formula gives with the cells it refers to as they stand: where
 * it has not been recalculated, or refers to
 * itself. Undefined where it is, and where that cannot be told here.
 */
export function unlikeItsFormula(
  { formula, value, error }: CellContent,
  at: Place,
  reading: Reading,
  originOf: OriginOf,
): string | undefined {
  if (formula === undefined) return undefined;
  const expression = withoutPrefix(formula);
  const evaluated = evaluateApart(expression, at, reading, originOf);
  // Some programs pass over an error that a formula only compares; where the program shows one, so do we.
  if (!evaluated || evaluated.error !== undefined || error) return undefined;
  const gives = upperLeft(evaluated);
  if (agreesWithHost(gives, value)) return undefined;
  const short = evaluateApart(expression, at, reading, originOf, undefined, true);
  if (short && short.error === undefined && agreesWithHost(upperLeft(short), value)) return undefined;
  if (typeof gives === "number" && typeof value === "number") {
    const rounded = differsByRounding(gives, value, (by) => {
      const moved = evaluateApart(expression, at, reading, originOf, (number, ...place) => number * by(...place));
      return moved && moved.error === undefined ? upperLeft(moved) : undefined;
    });
    if (rounded) return undefined;
  }
  return (
    `The cell holds ${said(value)}, but its formula gives ${said(gives)} with the cells it refers to as ` +
    "they stand: it has not been recalculated since they changed, it refers to itself, or another " +
    "version computed it"
  );
}
