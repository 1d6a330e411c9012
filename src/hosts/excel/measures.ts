/** A digit of the program's usual font takes 7 pixels of 1/96 inch, the margins of a column 5; the program wants points. */
export function columnPoints(characters: number): number {
  return (characters * 7 + 5) * 0.75;
}
