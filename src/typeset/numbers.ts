import { format } from "../core/index.ts";

const superscripts: Readonly<Record<string, string>> = {
  "−": "⁻",
  "0": "⁰",
  "1": "¹",
  "2": "²",
  "3": "³",
  "4": "⁴",
  "5": "⁵",
  "6": "⁶",
  "7": "⁷",
  "8": "⁸",
  "9": "⁹",
};

/** A number for reading: six significant digits, true minus signs, powers of ten written out. */
export function numberText(value: number): string {
  if (!Number.isFinite(value)) return "no number";
  const size = Math.abs(value);
  const rounded =
    value !== 0 && (size < 1e-4 || size >= 1e7)
      ? Number(value.toPrecision(6)).toExponential().replace(/-/g, "−")
      : format(value);
  const [mantissa, exponent] = rounded.split("e");
  if (exponent === undefined) return rounded;
  const power = [...exponent.replace("+", "")].map((c) => superscripts[c] ?? c).join("");
  return `${mantissa} × 10${power}`;
}

/** A number with its unit; plain numbers have none. */
export function withUnit(value: number, unit: string): string {
  return unit === "–" || unit === "" ? numberText(value) : `${numberText(value)} ${unit}`;
}
