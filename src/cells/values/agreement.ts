import { Fault, type Scalar } from "./values.ts";

/** Programs differ in the last digits of the same calculation; by less than this, relative to the greater number. */
const relative = 1e-9;
const signs: readonly ((row: number, column: number) => number)[] = [
  () => 1,
  (row) => (row % 2 ? 1 : -1),
  (_row, column) => (column % 2 ? 1 : -1),
  (row, column) => ((row + column) % 2 ? 1 : -1),
];

/**
 * Factors, by the place they are read at, that move numbers as far as programs may differ: all one way, and three
 * ways that part neighbours. A result
 * that moves by as much as it differs is what rounding leaves of terms that cancel.
 */
export const nudges: readonly ((row: number, column: number) => number)[] = signs.map(
  (sign) => (row, column) => 1 + relative * sign(row, column),
);

/** Agreement of two values: numbers to a relative 1e-9, texts and errors exactly. */
export function agrees(a: Scalar, b: Scalar): boolean {
  if (typeof a === "number" && typeof b === "number")
    return a === b || Math.abs(a - b) <= relative * Math.max(Math.abs(a), Math.abs(b));
  if (a instanceof Fault && b instanceof Fault) return a.code === b.code;
  return a === b;
}

/** Programs write a number into a text with 15 digits or with 17. */
const shortened = (text: string): string =>
  text.replace(/\d+\.\d+/g, (number) => (number.length > 13 ? String(Number(Number(number).toPrecision(12))) : number));

/**
 * Agreement of what a formula gives with what a program shows for it. A formula that repeats an empty cell gives 0, or
 * stays empty, as the program has it.
 */
export function agreesWithHost(computed: Scalar, host: Scalar): boolean {
  const given = computed ?? 0;
  if (agrees(given, host)) return true;
  if (host === null) return given === 0 || given === "";
  return typeof given === "string" && typeof host === "string" && shortened(given) === shortened(host);
}
