/** A unit as it is printed in a cell, its factor to the coherent set, and how mathjs spells it. */
interface UnitEntry {
  /** Multiply by this to get the coherent unit. */
  readonly factor: number;
  /** The coherent unit of the same dimension: N, mm, MPa, rad, days, °C, % and their products. */
  readonly coherent: string;
  /** The unit as a mathjs unit expression; empty for a plain number. */
  readonly math: string;
}

const table = {
  "–": { factor: 1, coherent: "–", math: "" },
  "%": { factor: 1, coherent: "%", math: "" },
  mm: { factor: 1, coherent: "mm", math: "mm" },
  m: { factor: 1e3, coherent: "mm", math: "m" },
  "mm²": { factor: 1, coherent: "mm²", math: "mm^2" },
  "mm³": { factor: 1, coherent: "mm³", math: "mm^3" },
  "mm⁴": { factor: 1, coherent: "mm⁴", math: "mm^4" },
  N: { factor: 1, coherent: "N", math: "N" },
  kN: { factor: 1e3, coherent: "N", math: "kN" },
  "N·mm": { factor: 1, coherent: "N·mm", math: "N mm" },
  "kN·m": { factor: 1e6, coherent: "N·mm", math: "kN m" },
  "N/mm": { factor: 1, coherent: "N/mm", math: "N/mm" },
  "kN/m": { factor: 1, coherent: "N/mm", math: "kN/m" },
  "N/mm³": { factor: 1, coherent: "N/mm³", math: "N/mm^3" },
  "kN/m³": { factor: 1e-6, coherent: "N/mm³", math: "kN/m^3" },
  "kg/m": { factor: 1, coherent: "kg/m", math: "kg/m" },
  "kg/m³": { factor: 1, coherent: "kg/m³", math: "kg/m^3" },
  MPa: { factor: 1, coherent: "MPa", math: "N/mm^2" },
  GPa: { factor: 1e3, coherent: "MPa", math: "kN/mm^2" },
  bar: { factor: 0.1, coherent: "MPa", math: "bar" },
  "MPa/mm": { factor: 1, coherent: "MPa/mm", math: "N/mm^3" },
  "MPa/m": { factor: 1e-3, coherent: "MPa/mm", math: "N/mm^2/m" },
  rad: { factor: 1, coherent: "rad", math: "rad" },
  "1/rad": { factor: 1, coherent: "1/rad", math: "1/rad" },
  "1/N": { factor: 1, coherent: "1/N", math: "1/N" },
  "1/MN": { factor: 1e-6, coherent: "1/N", math: "1/MN" },
  "1/mm": { factor: 1, coherent: "1/mm", math: "1/mm" },
  "1/m": { factor: 1e-3, coherent: "1/mm", math: "1/m" },
  "1/km": { factor: 1e-6, coherent: "1/mm", math: "1/km" },
  "rad/mm": { factor: 1, coherent: "rad/mm", math: "rad/mm" },
  "rad/m": { factor: 1e-3, coherent: "rad/mm", math: "rad/m" },
  // Of arguments and results whose unit follows from a choice: a call always works in one of them.
  "1/m or rad/m": { factor: 1, coherent: "1/m or rad/m", math: "" },
  "1/m, rad/m or rad": { factor: 1, coherent: "1/m, rad/m or rad", math: "" },
  "mm², mm or mm⁴": { factor: 1, coherent: "mm², mm or mm⁴", math: "" },
  "mm, mm² or mm³": { factor: 1, coherent: "mm, mm² or mm³", math: "" },
  "mm or MPa": { factor: 1, coherent: "mm or MPa", math: "" },
  "m or MPa": { factor: 1, coherent: "m or MPa", math: "" },
  "kN or mm": { factor: 1, coherent: "kN or mm", math: "" },
  "MPa or –": { factor: 1, coherent: "MPa or –", math: "" },
  "mm or –": { factor: 1, coherent: "mm or –", math: "" },
  "kN, mm, 1/MN or –": { factor: 1, coherent: "kN, mm, 1/MN or –", math: "" },
  "mm, mm², kg/m, kN, MPa, GPa or –": { factor: 1, coherent: "mm, mm², kg/m, kN, MPa, GPa or –", math: "" },
  days: { factor: 1, coherent: "days", math: "day" },
  h: { factor: 1 / 24, coherent: "days", math: "hour" },
  "°C": { factor: 1, coherent: "°C", math: "" },
  "°C·h": { factor: 1, coherent: "°C·h", math: "" },
} as const satisfies Record<string, UnitEntry>;

/** Every unit the project knows, as printed. */
export type Unit = keyof typeof table;

/** The coherent unit in which equations work unless a parameter says otherwise. */
export function coherentUnit(unit: Unit): Unit {
  return table[unit].coherent;
}

/** The factor that takes a value in `from` to `to`; throws where the dimensions differ. */
export function unitFactor(from: Unit, to: Unit): number {
  if (from === to) return 1;
  if (table[from].coherent !== table[to].coherent) throw new Error(`cannot convert ${from} to ${to}`);
  return table[from].factor / table[to].factor;
}

/** The unit as a mathjs unit expression; empty for numbers, per cent and temperatures. */
export function mathUnit(unit: Unit): string {
  return table[unit].math;
}

export const unitNames = Object.keys(table) as readonly Unit[];
