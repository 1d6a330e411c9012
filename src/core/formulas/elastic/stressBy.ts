/** The section that shortens, in mm, and its self-weight moment. */
export interface Shortening {
  readonly A: number;
  readonly I: number;
  readonly M_g: number;
}

/** Concrete stress at eccentricity e_j that a force P at e brings, with its share of the self-weight moment; compression positive. */
export function stressBy(P: number, e: number, share: number, e_j: number, { A, I, M_g }: Shortening): number {
  return P / A + (P * e * e_j) / I - (share * M_g * e_j) / I;
}
