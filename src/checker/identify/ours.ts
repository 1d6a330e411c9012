/** As typed, and as files keep it. */
const ours = /(?:\bKERN\.|_XLDUDF_KERN_)/i;

/** Whether a formula calls a function of the library: then it says itself what it computes. */
export function callsOurs(formula: string): boolean {
  return ours.test(formula);
}
