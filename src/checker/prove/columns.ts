/** The columns of a validation sheet, in order. The inputs of a value stand to its right, six beside one another; further ones beneath. */
export const columns = {
  no: 0,
  what: 1,
  basis: 2,
  printed: 3,
  unit: 4,
  number: 5,
  live: 6,
  liveUnit: 7,
  panel: 8,
  times: 9,
  plus: 10,
  compared: 11,
  difference: 12,
  tolerance: 13,
  verdict: 14,
  inputs: 15,
} as const;
export const inputsBeside = 6;

export const headings: readonly string[] = [
  "no.",
  "what is compared",
  "basis",
  "printed",
  "unit",
  "as number",
  "computed here",
  "unit",
  "by the panel",
  "times",
  "plus",
  "compared",
  "difference",
  "tolerance ±",
  "verdict",
  "inputs: name, symbol, unit, value",
];

/** In characters. */
export const widths: readonly number[] = [
  8,
  28,
  13,
  12,
  9,
  12,
  16,
  11,
  16,
  11,
  9,
  13,
  12,
  12,
  13,
  ...Array.from({ length: inputsBeside }, () => 14),
];

/** Where things stand at the head of every validation sheet. */
export const head = {
  title: 0,
  headings: 1,
  proves: 2,
  not: 3,
  words: 4,
  competence: 5,
  stressing: 6,
  made: 8,
  built: 9,
  hash: 10,
  now: 11,
  host: 12,
  overall: 13,
  counts: 15,
  firstBasis: 16,
  blocks: 24,
} as const;

/** The columns of the counts by basis, from the words of the verdict. */
export const countColumns = { basis: 1, values: 2, built: 3 } as const;
