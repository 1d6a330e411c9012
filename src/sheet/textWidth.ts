import { isMark } from "./subscripts.ts";

/** Widths of letters of a plain sans serif, in digits, in which column widths count. */
const narrow = "ijl.,;:'|!·’ˢ⁰¹²³⁴′ ()[]ftI/−-“”°";
/** A little narrower than a digit in every plain sans serif. */
const slim = "cksvxyzJ";
const wide = "mwMW—%→∞ΣΩΨ@…";

const widthsKept = new Map<string, number>();

function letterWidth(letter: string): number {
  const kept = widthsKept.get(letter);
  if (kept !== undefined) return kept;
  const width = widthOfLetter(letter);
  widthsKept.set(letter, width);
  return width;
}

function widthOfLetter(letter: string): number {
  if (isMark(letter)) return 0;
  if (narrow.includes(letter)) return 0.56;
  if (letter === "r") return 0.66;
  if (slim.includes(letter)) return 0.93;
  if (wide.includes(letter)) return 1.6;
  if (/[A-ZΑ-Ω]/.test(letter)) return 1.28;
  return 1;
}

/** How wide a text is, in characters of a column's width. */
export function textWidth(text: string): number {
  let sum = 0;
  for (const letter of text) sum += letterWidth(letter);
  return sum;
}

/** What a cell keeps free at its edges. */
const margin = 0.8;

export function fits(text: string, width: number): boolean {
  return textWidth(text) <= width - margin;
}

/** How high a row of one line is that holds subscripts: below it their letters are cut at the top. */
export const linesOfLow = 1.0625;

/** The same of the row below a rule, which would cover the top of a formula. */
export const linesOfLowUnderRule = 1.2;

/** By so much of a line programs draw a line higher that has subscripts, since their letters are of a larger size. */
const morePerLow = 0.65;

/**
 * How many lines a text takes where it wraps. Where marks stand around its subscripts, the lines that hold some count
 * as higher; a single line does not, since only what stands at its foot is drawn.
 */
export function linesIn(text: string, width: number): number {
  const room = width - margin;
  let lines = 1;
  let used = 0;
  const low = new Set<number>();
  for (const word of text.split(" ")) {
    const own = textWidth(word);
    if (used > 0 && used + letterWidth(" ") + own > room) {
      lines++;
      used = 0;
    }
    used += (used > 0 ? letterWidth(" ") : 0) + own;
    // A word longer than the line is broken.
    lines += Math.floor(Math.max(0, used - 0.001) / room);
    used %= room;
    if ([...word].some(isMark)) low.add(lines);
  }
  return lines === 1 ? 1 : lines + low.size * morePerLow;
}
