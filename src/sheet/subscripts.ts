/**
 * Subscripts within texts. While texts are put together, two marks that no text holds stand around what is lowered;
 * the cell then has the plain text and says which of its letters are lowered.
 */
const [opens, closes] = ["\uE000", "\uE001"];
const marks = new RegExp(`[${opens}${closes}]`, "g");

/** Letters of a text: from the first, up to the one behind the last. */
export type Letters = readonly [from: number, to: number];

/** What ends a subscript wherever it stands. */
const ends = " ()[]/·*'=;:|?!–“”";

/** `t_r0+t_eq`, `f_c−σ`, `(t_∞,t_0)`: another symbol follows the sign, which is no part of the subscript. */
const anotherSymbol = /^[+−,](?:[A-Za-zΑ-Ωα-ω′]+_|(?<!,)[Α-Ωα-ω])/;

function goesOn(text: string, i: number): boolean {
  const letter = text[i]!;
  if (ends.includes(letter)) return false;
  if (",.".includes(letter) && (i + 1 === text.length || text[i + 1] === " ")) return false;
  return !anotherSymbol.test(text.slice(i));
}

/** Words to choose from and names of functions have the sign between their parts: `TO_LEVEL`. */
const name = /^[A-Z][A-Z0-9]+_[A-Z0-9_]*/;

function beginsAt(text: string, i: number): boolean {
  const word = /[A-Za-z0-9_]*$/.exec(text.slice(0, i))![0];
  return /[\p{L}\d′∞)]$/u.test(text.slice(0, i)) && i + 1 < text.length && !name.test(word + text.slice(i));
}

/** A text with marks around its subscripts, which `_` begins. */
export function markedSymbol(text: string): string {
  if (!text.includes("_")) return text;
  let out = "";
  let low = false;
  for (let i = 0; i < text.length; i++) {
    const letter = text[i]!;
    if (low && !goesOn(text, i)) {
      out += closes;
      low = false;
    }
    if (letter === "_" && low) continue;
    if (letter === "_" && beginsAt(text, i)) {
      out += opens;
      low = true;
    } else out += letter;
  }
  return low ? out + closes : out;
}

/** A text with `_` before its subscripts again. */
export function withUnderlines(marked: string): string {
  return marked.replaceAll(opens, "_").replaceAll(closes, "");
}

/** A text without the marks. */
export function withoutMarks(text: string): string {
  return text.replace(marks, "");
}

/** A text without the marks, and the letters between them. */
export function typeset(marked: string): { readonly text: string; readonly lowered: readonly Letters[] } {
  const lowered: Letters[] = [];
  let text = "";
  let from = 0;
  for (const letter of marked) {
    if (letter === opens) from = text.length;
    else if (letter !== closes) text += letter;
    else if (text.length > from) lowered.push([from, text.length]);
  }
  return { text, lowered };
}

/** Takes no room. */
export function isMark(letter: string): boolean {
  return letter === opens || letter === closes;
}
