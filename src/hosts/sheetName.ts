import { SheetNameTaken } from "./host.ts";

const longest = 31;
const forbidden = /[[\]:*?/\\]/g;

/** Refuses a name no spreadsheet program takes, and one already on the workbook (upper and lower case do not tell names apart). */
export function checkSheetName(name: string, taken: readonly string[]): void {
  const shown = `The sheet name “${name}”`;
  if (name.trim() === "") throw new Error("The sheet name is empty; 1 to 31 characters are needed.");
  if (name.length > longest) throw new Error(`${shown} has ${name.length} characters; at most ${longest} are allowed.`);
  const bad = [...new Set(name.match(forbidden) ?? [])];
  if (bad.length > 0) throw new Error(`${shown} contains ${bad.join(" ")}; the characters [ ] : * ? / \\ are not allowed.`);
  if (name.startsWith("'") || name.endsWith("'")) throw new Error(`${shown} begins or ends with an apostrophe; that is not allowed.`);
  if (hasName(taken, name)) throw new SheetNameTaken(name, freeName(name, taken));
}

function hasName(taken: readonly string[], name: string): boolean {
  return taken.some((other) => other.toLowerCase() === name.toLowerCase());
}

/** "Beam 2" where "Beam" is taken; shortened where it would be too long. */
function freeName(name: string, taken: readonly string[]): string {
  const stem = name.replace(/ \d+$/, "");
  for (let n = 2; ; n++) {
    const end = ` ${n}`;
    const free = stem.slice(0, longest - end.length) + end;
    if (!hasName(taken, free)) return free;
  }
}

/** The sheet's name as formulas write it before `!`. */
export function quotedSheet(name: string): string {
  return /^[A-Za-z_]\w*$/.test(name) && !/^[A-Za-z]{1,3}\d+$|^R\d*C\d*$/i.test(name) ? name : `'${name.replaceAll("'", "''")}'`;
}
