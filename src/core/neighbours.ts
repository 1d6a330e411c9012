import { outside, unusual, type Quantity } from "./parameters.ts";
import type { Unit } from "./units.ts";

/** A unit in which a value is easily typed by mistake. `factor`: the number it takes in that unit to say 1 in the right one. */
export interface Neighbour {
  /** As a message names it: "A value in per cent?" */
  readonly name: string;
  readonly factor: number;
}

const degrees: Neighbour = { name: "degrees", factor: 180 / Math.PI };
const perCent: Neighbour = { name: "per cent", factor: 100 };
const ratio: Neighbour = { name: "parts of 1, not per cent", factor: 0.01 };
const metres = (power: number): Neighbour => ({ name: `m${["", "", "²", "³", "⁴"][power]!}`, factor: 1e-3 ** power });
const thousandTimes = (name: string): Neighbour => ({ name, factor: 1000 });
const thousandth = (name: string): Neighbour => ({ name, factor: 0.001 });
const daysOfYear = 365.25;

/** Strains are small numbers that are also written as per cent, per mille or millionths. */
export const strainNeighbours: readonly Neighbour[] = [
  perCent,
  thousandTimes("per mille"),
  { name: "millionths (microstrain)", factor: 1e6 },
];

/** Written as 10 where 10·10⁻⁶ is meant. */
export const millionths: readonly Neighbour[] = [{ name: "millionths", factor: 1e6 }];

/**
 * What each unit is mistaken for. Centimetres, decanewtons and degrees Fahrenheit lie too near for any range to tell
 * them apart. Coherent units in which only equations work are in no cell.
 */
const byUnit: Readonly<Record<Unit, readonly Neighbour[]>> = {
  "–": [perCent],
  "%": [ratio],
  mm: [metres(1)],
  m: [thousandTimes("mm")],
  "mm²": [metres(2)],
  "mm³": [metres(3)],
  "mm⁴": [metres(4)],
  N: [thousandth("kN")],
  kN: [thousandTimes("N")],
  "N·mm": [{ name: "kN·m", factor: 1e-6 }],
  "kN·m": [{ name: "N·mm", factor: 1e6 }],
  "N/mm": [thousandTimes("N/m")],
  "kN/m": [thousandTimes("N/m")],
  "N/mm³": [],
  "kN/m³": [thousandTimes("N/m³"), { name: "kg/m³", factor: 1000 / 9.81 }],
  "kg/m": [thousandTimes("g/m")],
  "kg/m³": [thousandth("t/m³")],
  MPa: [{ name: "Pa", factor: 1e6 }, thousandth("GPa")],
  GPa: [thousandTimes("MPa"), { name: "Pa", factor: 1e9 }],
  bar: [
    { name: "MPa", factor: 0.1 },
    { name: "Pa", factor: 1e5 },
  ],
  "MPa/mm": [],
  "MPa/m": [thousandth("MPa/mm")],
  rad: [degrees],
  "1/rad": [perCent, { name: "1/degree", factor: Math.PI / 180 }],
  "1/N": [],
  "1/MN": [thousandth("1/kN")],
  "1/mm": [],
  "1/km": [
    { name: "1/m", factor: 1e-3 },
    { name: "1/mm", factor: 1e-6 },
  ],
  "1/m": [thousandth("1/mm")],
  "rad/mm": [],
  "rad/m": [{ name: "degrees/m", factor: degrees.factor }, thousandth("rad/mm")],
  // A call works in one of them, which has its own.
  "1/m or rad/m": [],
  "1/m, rad/m or rad": [],
  "mm², mm or mm⁴": [],
  "mm, mm² or mm³": [],
  "mm or MPa": [],
  "m or MPa": [],
  "kN or mm": [],
  "MPa or –": [],
  "mm or –": [],
  "kN, mm, 1/MN or –": [],
  "mm, mm², kg/m, kN, MPa, GPa or –": [],
  days: [
    { name: "hours", factor: 24 },
    { name: "years", factor: 1 / daysOfYear },
  ],
  h: [
    { name: "days", factor: 1 / 24 },
    { name: "years", factor: 1 / (24 * daysOfYear) },
  ],
  "°C·h": [{ name: "°C·days", factor: 1 / 24 }],
  "°C": [],
};

/** The units a quantity is easily mistaken for: its own list, else that of its unit. Counts have none. */
export function neighboursOf(quantity: Pick<Quantity, "unit" | "whole" | "neighbours">): readonly Neighbour[] {
  return quantity.neighbours ?? (quantity.whole ? [] : byUnit[quantity.unit]);
}

/** "A value in per cent?", where an odd value would be an everyday one in a neighbouring unit; empty otherwise. */
export function neighbourHint(quantity: Quantity, value: number): string {
  const meant = neighboursOf(quantity).find(({ factor }) => {
    const inOwnUnit = value / factor;
    return value !== 0 && outside(quantity, inOwnUnit) === undefined && unusual(quantity, inOwnUnit) === undefined;
  });
  return meant === undefined ? "" : `A value in ${meant.name}?`;
}
