import type { FindingKind, Grade } from "./finding.ts";

/** The parts of a number format for positive, negative, zero and text. */
function sections(format: string): readonly string[] {
  const out = [""];
  for (const found of format.match(/"[^"]*"|\\.|_.|\*.|[^"\\]/g) ?? []) {
    if (found === ";") out.push("");
    else out[out.length - 1] += found;
  }
  return out;
}

/**
 * A format as it is compared: programs write the same text in quotation marks, behind backslashes, or plainly where it needs neither, and
 * brackets with or without what goes without saying.
 */
function asCompared(format: string): string {
  let text = "";
  let out = "";
  const end = (): void => {
    if (text !== "") out += `"${text}"`;
    text = "";
  };
  for (const found of format.match(/"[^"]*"|\\.|_.|\*.|[^"\\]/g) ?? []) {
    if (found.startsWith('"')) text += found.slice(1, -1);
    else if (found.startsWith("\\")) text += found.slice(1);
    else if (found === " ") text += found;
    else {
      end();
      out += found;
    }
  }
  end();
  return out;
}

/** What of a section shows the number itself. */
const bare = (section: string): string => section.replace(/"[^"]*"|\\.|_.|\*.|\[[^\]]*\]/g, "");

/** White letters on paper. */
const white = /\[(?:white|color ?2)\]/i;

/** Does this format leave out the value of some numbers: all, the negative ones, zero? */
export function hidesNumbers(format: string): boolean {
  if (format === "" || format === "General") return false;
  return sections(format)
    .slice(0, 3)
    .some((section) => white.test(section) || !/[0#?@]|general|[ymdhs]/i.test(bare(section)));
}

/** Does this format show texts otherwise than as they stand, such as a verdict: not at all, or as other words? */
export function hidesTexts(format: string): boolean {
  const all = sections(format);
  const section = all[3] ?? all.find((s) => bare(s).includes("@"));
  return section !== undefined && (white.test(section) || bare(section).trim() !== "@" || /"[^"]|\\./.test(section));
}

/** Does this format show a number with the other sign: a minus for all, or none for negative ones? */
function turnsSign(format: string): boolean {
  const [first = "", second] = sections(format).map((s) => s.replace(/E[+-]|\[[^\]]*\]/gi, ""));
  return (
    (!/[ymdhs]/i.test(bare(first)) && /[-−]/.test(first)) ||
    (second !== undefined && /[0#?]/.test(bare(second)) && !/[-−(]/.test(second))
  );
}

const decimals = (format: string): number => (/\.([0#?]+)/.exec(bare(sections(format)[0]!))?.[1] ?? "").length;

/** In what a number format differs from the planned one; undefined where a number reads the same. */
export function formatChange(
  planned: string,
  now: string,
):
  | {
      readonly kind: Extract<FindingKind, "value hidden by format" | "format changed">;
      readonly grade: Grade;
      readonly what: string;
    }
  | undefined {
  if (planned === now || asCompared(planned) === asCompared(now)) return undefined;
  if (hidesNumbers(now) && !hidesNumbers(planned))
    return { kind: "value hidden by format", grade: "serious", what: "The number format does not show the value." };
  if (hidesTexts(now) && !hidesTexts(planned))
    return {
      kind: "value hidden by format",
      grade: "serious",
      what: "The number format does not show texts, such as a verdict, as they stand.",
    };
  if (turnsSign(now) && !turnsSign(planned))
    return { kind: "format changed", grade: "serious", what: "The number format changes the sign, or leaves it out." };
  const changes = (format: string): string =>
    [
      /%/.test(bare(format)) && "per cent",
      /,(?=[,.;]|$)/.test(bare(format)) && "thousands",
      /[ymdhs]/i.test(bare(format)) && "date",
      /"[^"]*"|\\./.test(format) && "words",
    ]
      .filter(Boolean)
      .join();
  if (changes(now) !== changes(planned))
    return {
      kind: "format changed",
      grade: "look",
      what: "The number format shows the value in another way: as per cent, in thousands, as a date or with words.",
    };
  return {
    kind: "format changed",
    grade: decimals(now) < decimals(planned) ? "look" : "note",
    what:
      decimals(now) < decimals(planned) ? "The number format shows fewer digits." : "The number format was changed.",
  };
}
