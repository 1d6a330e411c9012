/** Control characters, line separators, and halves of characters: no file keeps them, and nobody sees them. */
const unwritable = /[\p{Cc}\p{Zl}\p{Zp}\p{Cs}\ufffe\uffff]/u;
const everyUnwritable = new RegExp(unwritable, "gu");

/** Does the text hold a character that no workbook keeps, or a line end? */
export const holdsUnwritable = (text: string): boolean => unwritable.test(text);

/** The text with another in place of each such character. */
export const withoutUnwritable = (text: string, instead: string): string => text.replace(everyUnwritable, instead);

/** At most so many characters from the beginning; never half a character. */
export function cut(text: string, length: number): string {
  return text.slice(0, length).replace(/[\ud800-\udbff]$/, "");
}

/** At most so many characters, the last of them … where some are left out. */
export function shortened(text: string, length: number): string {
  return text.length <= length ? text : `${cut(text, length - 1)}…`;
}
