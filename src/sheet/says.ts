import { allowedText, q, type Bounds, type Quantity, type Unit } from "../core/index.ts";
import type { InputSpec, Row, Saying } from "./template.ts";

/** What a row or column says, with what its quantity lends. */
export interface Says {
  readonly id: string;
  readonly text: string;
  /** `_` starts a subscript. */
  readonly symbol: string;
  readonly unit: string;
  readonly quantity?: Quantity;
  readonly format?: string;
  readonly source?: string;
  readonly equation?: string;
}

export const quantities: Readonly<Record<string, Quantity>> = q;

/** What the list of checks calls a check. */
export function checkName({ row, says }: { readonly row: Pick<Row, "summary">; readonly says: Says }): string {
  return row.summary?.name ?? says.text;
}

export function says(saying: Saying): Says {
  const quantity = saying.quantity === undefined ? undefined : quantities[saying.quantity];
  return {
    id: saying.id,
    text: saying.text ?? quantity?.text ?? saying.id,
    symbol: saying.symbol ?? quantity?.symbol ?? "–",
    unit: saying.unit ?? quantity?.unit ?? "–",
    ...(quantity && { quantity }),
    ...(saying.format !== undefined && { format: saying.format }),
    ...(saying.source !== undefined && { source: saying.source }),
    ...(saying.equation !== undefined && { equation: saying.equation }),
  };
}

/** The symbol as a cell shows it. */
export function plainSymbol(symbol: string): string {
  return symbol.replace(/[_{}]/g, "");
}

/** The bounds of an input: its own, on each side where it has none its quantity's. */
export function boundsOf(input: InputSpec, quantity: Quantity | undefined): Bounds & { readonly whole?: true } {
  const side = (own: Bounds, other: Bounds): Bounds => (Object.keys(own).length > 0 ? own : other);
  const low = (b: Bounds): Bounds => ({
    ...(b.min !== undefined && { min: b.min }),
    ...(b.above !== undefined && { above: b.above }),
  });
  const high = (b: Bounds): Bounds => ({
    ...(b.max !== undefined && { max: b.max }),
    ...(b.below !== undefined && { below: b.below }),
    ...(b.because !== undefined && { because: b.because }),
  });
  return {
    ...side(low(input), low(quantity ?? {})),
    ...side(high(input), high(quantity ?? {})),
    ...((input.whole ?? quantity?.whole) && { whole: true }),
  };
}

/** The allowed values of an input in words; empty where anything goes. */
export function allowedWords(input: InputSpec, says: Says): string {
  if (input.freeText) return "";
  if (input.choices) return input.choices.map(({ value, text }) => `${value}: ${text}`).join("; ");
  const bounds = boundsOf(input, says.quantity);
  const range = allowedText({ ...bounds, unit: says.unit as Unit });
  return [
    ...(bounds.whole ? ["whole numbers"] : []),
    ...(range ? [range] : []),
    ...(input.mayBeEmpty ? ["may stay empty"] : []),
  ].join(", ");
}

const formats: Readonly<Record<string, string>> = {
  "–": "0.000",
  "%": "0.0",
  mm: "0.0",
  m: "0.000",
  "mm²": "#,##0",
  "mm³": "0.000E+00",
  "mm⁴": "0.000E+00",
  N: "0",
  kN: "0.0",
  "N·mm": "0.000E+00",
  "kN·m": "0.0",
  MPa: "0.00",
  GPa: "0.00",
  rad: "0.0000",
  "1/rad": "0.000",
  "1/m": "0.0000",
  "1/MN": "0.0000",
  "rad/m": "0.0000",
  days: "0",
  h: "0",
  "°C": "0.0",
};

/** The number format of a computed value. */
export function formatOf(says: Says): string {
  return says.format ?? formats[says.unit] ?? "0.000";
}

/** Number formats that say that a bound itself is not allowed. */
const strict = { from: '">" General', to: '"<" General' } as const;
/** A bound so far out keeps typing errors from the program; on paper it says nothing. */
const farOut = 1e6;

/** How a bound of an input is shown: in force, itself not allowed, or so far out that a dash stands for it. */
export function boundFormat(
  inclusive: number | undefined,
  exclusive: number | undefined,
  side: "from" | "to",
): string | undefined {
  if (Math.abs(inclusive ?? exclusive ?? 0) >= farOut) return '"–"';
  return inclusive === undefined ? strict[side] : undefined;
}
