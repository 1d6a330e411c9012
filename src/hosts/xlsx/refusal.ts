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
};

export const megabytes = (bytes: number): string => `${Math.round(bytes / 1e6).toLocaleString("en-GB")} MB`;

/** Refuses a file that is too large, before it is read. */
export function checkSize(bytes: number, { packed }: Limits = limits): void {
  if (bytes > packed) throw new CannotOpen(`it is ${megabytes(bytes)} large; up to ${megabytes(packed)} are opened`);
}
