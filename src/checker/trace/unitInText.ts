import { spelledUnit, type SpelledUnit } from "./units.ts";

/** Letters that are symbols of something as often as units: depth d, length a, height h, axial force N. */
export const alsoSymbol = (text: string): boolean => /^[A-Za-ln-z]$/.test(text.trim());

/** No word, symbol or number looks so: it is a unit without brackets around it. */
const unmistakable = (text: string): boolean =>
  (/^[mck]?m[²³⁴234^]?$|[A-Z%°‰/]/.test(text) && text.length > 1 && !/^bars?$/i.test(text)) || text === "%";

/** A text in its words and the unit among them. */
interface SplitText {
  readonly text: string;
  readonly unit?: SpelledUnit;
}

/** "Force P [kN]", "Force P in kN" */
function atTheEnd(text: string): SplitText | undefined {
  const found = /^(.*?)[\s,]*(?:[[(]([^[\]()]*)[\])]|\bin (\S+(?: m)?))\s*:?$/.exec(text);
  const unit = found && spelledUnit(found[2] ?? found[3]!);
  return unit ? { text: found[1]!.trim(), unit } : undefined;
}

/** "E_cm (GPa) at 28 d" */
function amongWords(text: string): SplitText | undefined {
  const found = /^(.*\S)\s+[[(]([^[\]()]+)[\])](?=[\s,;])(.*)$/.exec(text);
  const unit = found && !alsoSymbol(found[2]!) && spelledUnit(found[2]!);
  return unit ? { text: `${found[1]!}${found[3]!}`.trim(), unit } : undefined;
}

/** "Force P kN": what can be nothing but a unit. */
function lastWord(text: string): SplitText | undefined {
  const found = /^(.*\S)\s+(\S+)$/.exec(text);
  const unit = found && unmistakable(found[2]!) && spelledUnit(found[2]!);
  return unit ? { text: found[1]!.replace(/[,/]$/, "").trim(), unit } : undefined;
}

/** "Force, kN", "x / m"; not "kg/m", which is a unit as a whole. */
function behindStroke(text: string): SplitText | undefined {
  const [, words, between, end] = /^(.*?)(\s*[,/]\s*|\s+)(\S+)$/.exec(text) ?? [];
  if (
    words === undefined ||
    end === undefined ||
    !/[,/]/.test(between!) ||
    /^(?:|kg|t|lb|kips?)$/.test(words) ||
    alsoSymbol(end) ||
    /^[-–—1]$/.test(end) ||
    spelledUnit(text)
  )
    return undefined;
  const unit = spelledUnit(end);
  return unit && { text: words.trim(), unit };
}

/** The words of a text and the unit it names with them; brackets that hold no unit stay. */
export function splitUnit(text: string): SplitText {
  return atTheEnd(text) ?? amongWords(text) ?? lastWord(text) ?? behindStroke(text) ?? { text };
}
