import type { PublishedCase } from "../../published/index.ts";

/** What a row of the sheet rests on, in the words on the sheet; the counts use the same words. */
export const basisWords = {
  published: "published",
  memory: "from memory",
  superseded: "superseded",
  range: "declared range",
} as const;
export type BasisWord = (typeof basisWords)[keyof typeof basisWords];

/** What the words mean, in the order of the counts. */
export const basesExplained: readonly (readonly [BasisWord, string])[] = [
  [basisWords.published, "printed in a work that was read"],
  [basisWords.memory, "printed in a work, recalled, not read: not counted as published"],
  [
    basisWords.superseded,
    "of a source known to be superseded or wrong: must differ, except where the table in force prints the same",
  ],
  [basisWords.range, "no publication: an input outside the range the function declares must be refused"],
];

/** What a published case rests on, as the sheet says it. */
export function basisOf(c: PublishedCase): BasisWord {
  if (c.mustDiffer) return basisWords.superseded;
  return c.basis === "published" ? basisWords.published : basisWords.memory;
}

/** The verdicts of one value, as formulas give them; whatever else stands in the verdict column counts as FAIL. */
export const good = ["PASS", "DIFFERS", "BY TRACE", "REFUSED"] as const;
export const fail = "FAIL";
/** Overall: as well PASS and FAIL. */
export const overallWords = { changed: "CHANGED", incomplete: "INCOMPLETE" } as const;

export const wordsExplained =
  "PASS: agrees within the tolerance. DIFFERS: a superseded value that the function rightly does not " +
  "give. BY TRACE: an intermediate step, which no cell can show; its value was computed by the panel " +
  "when this sheet was made and does not recalculate. What does is the function's own result, which " +
  "must be the one the panel had with it. REFUSED: an input out of range gives #VALUE!, as it must. " +
  "FAIL: anything else, an error included.";
