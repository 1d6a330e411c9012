/** So many tendons, or rows, with so many strands in each. */
export interface Layout {
  readonly count: number;
  readonly strands: number;
}
