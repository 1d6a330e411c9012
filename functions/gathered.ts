/** A sentence without its figures: two that differ in nothing else say the same. */
const apartFromFigures = (sentence: string): string => sentence.replace(/[−\d][\d.,·^]*/g, "#");

/**
 * What is said row by row, each sentence once: the first with its figures, and in how many rows it is said.
 * Rows count from 1, as in messages about ranges.
 */
export function gathered(rows: readonly (readonly string[])[]): readonly string[] {
  const said = new Map<string, { readonly first: string; readonly rows: number[] }>();
  rows.forEach((sentences, i) => {
    for (const sentence of sentences) {
      const known = said.get(apartFromFigures(sentence)) ?? { first: sentence, rows: [] };
      known.rows.push(i + 1);
      said.set(apartFromFigures(sentence), known);
    }
  });
  return [...said.values()].map(({ first, rows: at }) => {
    if (at.length === 1) return `${first} (row ${at[0]!})`;
    return `${first} (row ${at[0]!}; so in ${at.length} of ${rows.length} rows, the last row ${at.at(-1)!})`;
  });
}
