/** A file that is not opened: why, in words. Whoever opens it puts its name before them. */
export class CannotOpen extends Error {
  override readonly name = "CannotOpen";
}

/** Bounds of what is opened. A built sheet unpacks to about 4 MB and has some 3,500 rows. */
export const limits = {
  packed: 40e6,
  part: 48e6,
  unpacked: 160e6,
  parts: 2000,
  sheets: 100,
  rows: 20_000,
  columns: 500,
  cells: 400_000,
  /** What programs allow in a cell. */
  text: 32_767,
  formula: 8_192,
  nested: 128,
  /** Characters of a sheet's formulas together: one that is written once may stand for thousands. */
  formulas: 10_000_000,
  /** Areas of a sheet with rules: for colours, for what may be typed. */
  colourRules: 1_000,
  /** Cells of all rules for colours together: each rule is looked up in each of its cells. */
  colourCells: 2_000_000,
  /** Rows and columns beyond the last filled ones to which rules reach: programs write them for whole columns. */
  rulesBeyond: 200,
  entryRules: 5_000,
  /** Areas of a sheet: of joined cells, and of formulas that fill several cells. */
  joined: 20_000,
  filling: 2_000,
  names: 50_000,
} as const;
export type Limits = Readonly<Record<keyof typeof limits, number>>;

/** Of what was written here by ourselves: all that a sheet can hold. */
export const ownLimits: Limits = {
  packed: Infinity,
  part: Infinity,
  unpacked: Infinity,
  parts: Infinity,
  sheets: Infinity,
  rows: 2 ** 20,
  columns: 2 ** 14,
  cells: Infinity,
  text: Infinity,
  formula: Infinity,
  nested: Infinity,
  formulas: Infinity,
  colourRules: Infinity,
  colourCells: Infinity,
  rulesBeyond: Infinity,
  entryRules: Infinity,
  joined: Infinity,
  filling: Infinity,
  names: Infinity,
};

export const megabytes = (bytes: number): string => `${Math.round(bytes / 1e6).toLocaleString("en-GB")} MB`;

export const countText = (n: number): string => n.toLocaleString("en-GB");

/** Refuses a file that has more of something on a sheet, or in the whole workbook, than is opened. */
export function refuseTooMany(count: number, limit: number, what: string, sheet?: string): void {
  if (count <= limit) return;
  const where = sheet === undefined ? "it" : `its sheet “${sheet}”`;
  throw new CannotOpen(`${where} has ${countText(count)} ${what}; up to ${countText(limit)} are opened`);
}

/** How deep brackets stand within one another. */
function depthOf(formula: string): number {
  let [depth, most] = [0, 0];
  for (const c of formula) {
    if (c === "(") most = Math.max(most, ++depth);
    else if (c === ")") depth--;
  }
  return most;
}

/** What makes a formula too long for a cell, with the limit at the end; undefined where it is not. */
export function faultOfFormula(formula: string, { formula: longest, nested }: Limits = limits): string | undefined {
  if (formula.length > longest)
    return `a formula of ${countText(formula.length)} characters; up to ${countText(longest)}`;
  const depth = depthOf(formula);
  return depth > nested ? `a formula with ${depth} brackets within one another; up to ${nested}` : undefined;
}

/** Refuses a file that is too large, before it is read. */
export function checkSize(bytes: number, { packed }: Limits = limits): void {
  if (bytes > packed) throw new CannotOpen(`it is ${megabytes(bytes)} large; up to ${megabytes(packed)} are opened`);
}
