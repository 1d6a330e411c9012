/** Characters XML 1.0 has no way to write, so that no file keeps them: control characters and halves of characters. */
const unkept = "\\u0000-\\u0008\\u000b\\u000c\\u000e-\\u001f\\p{Cs}\\ufffe\\uffff";
const oneUnkept = new RegExp(`[${unkept}]`, "u");
const everyUnkept = new RegExp(oneUnkept, "gu");

/** Those, and tabs, line ends and separators, which nobody sees. */
const unwritable = new RegExp(`[${unkept}\\p{Cc}\\p{Zl}\\p{Zp}]`, "u");
const everyUnwritable = new RegExp(unwritable, "gu");

/** Does the text hold a character that no workbook keeps? */
export const holdsUnkept = (text: string): boolean => oneUnkept.test(text);

/** The text without those characters, as a program that cannot keep them leaves them out. */
export const withoutUnkept = (text: string): string => text.replace(everyUnkept, "");

/** Does the text hold a character that no workbook keeps, a tab or a line end? */
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
