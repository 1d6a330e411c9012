import { Fault, type Scalar } from "./values.ts";

/** Programs differ in the last digits of the same calculation; by less than this, relative to the greater number. */
const relative = 1e-9;

/** What one formula may lose: programs keep 15 digits of each step. Relative to the greatest number that went in. */
const lastDigits = 1e-14;

/** How far the numbers a formula reads are moved to see what it makes of their last digits. */
const movements = [1e-4, 1e-7];

/** Another factor for each cell, between −1 and 1 and always the same, so that no two cells move alike in all draws. */
function drawn(draw: number, sheet: number, row: number, column: number): number {
  const wave = Math.sin(row * 12.9898 + column * 78.233 + sheet * 45.164 + draw * 37.719) * 43758.5453;
  return 2 * (wave - Math.floor(wave)) - 1;
}
const draws = [1, 2, 3, 4];

/** A factor for each number that a formula reads, by where it stands. */
type Movement = (sheet: number, row: number, column: number) => number;

/**
 * Whether a shown number is what a formula gives but for the rounding of its own terms where they cancel: no further
 * from it than a change in the last digits of what it reads takes the result. That is found from two movements, each in
 * proportion. A step does not shrink with the movement that meets it: there is no rounding beside one. A pole is met by
 * the larger movement alone: the lesser effect counts.
 */
export function differsByRounding(gives: number, shown: number, moved: (by: Movement) => Scalar | undefined): boolean {
  const effects = movements.map((size) => {
    const results = draws.map((draw) => moved((...place) => 1 + size * drawn(draw, ...place)));
    return Math.max(...results.map((result) => (typeof result === "number" ? Math.abs(result - gives) : 0))) / size;
  });
  const [large, small] = effects as [number, number];
  return small < 10 * large && Math.abs(gives - shown) <= lastDigits * Math.min(large, small);
}

const near = (a: number, b: number, to: number): boolean =>
  a === b || Math.abs(a - b) <= to * Math.max(Math.abs(a), Math.abs(b));

/** Agreement of two values: numbers to a relative 1e-9, texts and errors exactly. */
export function agrees(a: Scalar, b: Scalar, to = relative): boolean {
  if (typeof a === "number" && typeof b === "number") return near(a, b, to);
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
export function agreesWithHost(computed: Scalar, host: Scalar, to = relative): boolean {
  const given = computed ?? 0;
  if (agrees(given, host, to)) return true;
  if (host === null) return given === 0 || given === "";
  return typeof given === "string" && typeof host === "string" && shortened(given) === shortened(host);
}

/** The same to the last digits that programs keep of one formula. */
export const agreesToLastDigits = (computed: Scalar, host: Scalar): boolean =>
  agreesWithHost(computed, host, lastDigits);
