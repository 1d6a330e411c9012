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

/** What of a section shows the number itself. */
const bare = (section: string): string => section.replace(/"[^"]*"|\\.|_.|\*.|\[[^\]]*\]/g, "");

/** Does this format leave out the value of some numbers: all, the negative ones, zero? */
export function hidesNumbers(format: string): boolean {
  if (format === "" || format === "General") return false;
  return sections(format).slice(0, 3).some((section) => !/[0#?]|general|[ymdhs]/i.test(bare(section)));
}

const decimals = (format: string): number => (/\.([0#?]+)/.exec(bare(sections(format)[0]!))?.[1] ?? "").length;

/** In what a number format differs from the planned one; undefined where a number reads the same. */
export function formatChange(planned: string, now: string): { readonly kind: Extract<FindingKind, "value hidden by format" | "format changed">; readonly grade: Grade; readonly what: string } | undefined {
  if (planned === now) return undefined;
  if (hidesNumbers(now) && !hidesNumbers(planned)) return { kind: "value hidden by format", grade: "serious", what: "The number format does not show the value." };
  const changes = (format: string): string => [/%/.test(bare(format)) && "per cent", /,(?=;|$)/.test(bare(format)) && "thousands", /"[^"]*"|\\./.test(format) && "words"].filter(Boolean).join();
  if (changes(now) !== changes(planned)) return { kind: "format changed", grade: "look", what: "The number format shows the value in another way: as per cent, in thousands or with words." };
  return { kind: "format changed", grade: decimals(now) < decimals(planned) ? "look" : "note", what: decimals(now) < decimals(planned) ? "The number format shows fewer digits." : "The number format was changed." };
}
