import { cut, holdsUnwritable, withoutUnwritable } from "../cells/index.ts";

/** Characters that spreadsheet programs take in the name of a sheet. */
export const longestSheetName = 31;
const forbidden = /[[\]:*?/\\]/g;
/** Kept by spreadsheet programs for a sheet of their own. */
const reserved = "History";

const same = (a: string, b: string): boolean => a.toLowerCase() === b.toLowerCase();

/** Is there a sheet of this name? Upper and lower case do not tell names apart. */
export function isSheetNameTaken(name: string, taken: readonly string[]): boolean {
  return taken.some((other) => same(other, name));
}

/** Why a spreadsheet program takes this name for no sheet; undefined where it does. */
export function faultOfSheetName(name: string): string | undefined {
  const shown = `The sheet name “${name}”`;
  if (name.trim() === "") return "The sheet name is empty; 1 to 31 characters are needed.";
  if (name.length > longestSheetName)
    return `${shown} has ${name.length} characters; at most ${longestSheetName} are allowed.`;
  if (holdsUnwritable(name))
    return (
      `The sheet name “${withoutUnwritable(name, "�")}” holds a tab, a line end or another character that ` +
      "can't be seen; type it again without."
    );
  const bad = [...new Set(name.match(forbidden) ?? [])];
  if (bad.length > 0) return `${shown} contains ${bad.join(" ")}; the characters [ ] : * ? / \\ are not allowed.`;
  if (name.startsWith("'") || name.endsWith("'"))
    return `${shown} begins or ends with an apostrophe; that is not allowed.`;
  if (same(name, reserved))
    return `The spreadsheet program keeps the sheet name “${reserved}” for itself; choose another.`;
  return undefined;
}

/** What to say of a name in use, with a free one. */
export function sheetNameTakenText(name: string, free: string): string {
  return `The workbook already has a sheet named “${name}”. Choose another name, for instance “${free}”.`;
}

/** A name must not end with an apostrophe; what is cut within brackets goes whole. */
function cutName(name: string, length: number): string {
  const short = name.length > length ? cut(name, length).replace(/(?<=\S)\s*\([^)]*$/, "") : name;
  return short.replace(/[\s']+$/, "");
}

/** The nearest allowed and free name: "Beam", or "Beam 2" where that is taken; shortened where it would be too long. */
export function freeSheetName(wanted: string, taken: readonly string[]): string {
  const name =
    cutName(
      withoutUnwritable(wanted, " ")
        .replace(forbidden, " ")
        .replace(/\s+/g, " ")
        .replace(/^[\s']+/, ""),
      longestSheetName,
    ) || "Sheet";
  const isFree = (other: string): boolean => !same(other, reserved) && !isSheetNameTaken(other, taken);
  if (isFree(name)) return name;
  const stem = name.replace(/ \d+$/, "");
  for (let n = 2; ; n++) {
    const end = ` ${n}`;
    const free = cutName(stem, longestSheetName - end.length) + end;
    if (isFree(free)) return free;
  }
}
