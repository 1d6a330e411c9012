import { fnv1a64, InputError, text, type Argument, type Cell } from "../src/core/index.ts";

const params = {
  warnings: text({
    key: "warningsListed",
    symbol: "warnings",
    text: "the list of warnings: in each row what the warning is of first and its text last",
    example: "B2:F9",
  }),
} as const;

/** Consonants only: the code reads as no word, no date and no number, whatever program it is typed into. */
const letters = "BCDFGHJKLMNPQRSTVWXZ";
const length = 5;
/** Digits of the hash that a number holds exactly. */
const exactDigits = 12;

function lettersOf(hash: string): string {
  let rest = Number.parseInt(hash.slice(-exactDigits), 16);
  let out = "";
  for (let i = 0; i < length; i++) {
    out += letters[rest % letters.length]!;
    rest = Math.floor(rest / letters.length);
  }
  return out;
}

const said = (cell: Cell): string => String(cell ?? "").trim();

/**
 * A short code of the warnings that apply: their number and five letters from their texts. Whoever has answered them
 * types the code; once a warning comes, goes or changes, the code is another.
 */
export const warningsCodeFunction = {
  id: "WARNINGS_CODE",
  summary:
    "A short code of a list of warnings, their number and five letters from their texts: it changes with every warning; " +
    "“none” where there are no warnings",
  params,
  repeating: "warnings",
  compute: (ranges: readonly Argument[]): string => {
    if (ranges.length === 0) throw new InputError("warnings", "warnings (the list of warnings) is missing");
    const rows = ranges.flatMap((range) =>
      Array.isArray(range) ? (range as readonly (readonly Cell[])[]) : [[range as Cell]],
    );
    const apply = rows.filter((row) => said(row.at(-1)) !== "").map((row) => row.map(said).filter(Boolean));
    if (apply.length === 0) return "none";
    return `${apply.length}-${lettersOf(fnv1a64(JSON.stringify(apply)))}`;
  },
} as const;
