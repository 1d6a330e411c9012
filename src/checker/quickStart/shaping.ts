import type { Inputs, Template } from "../../sheet/index.ts";

/**
 * Lifting and detailing are left to the full sheet. The web is checked, since the sheet of strength needs its stresses:
 * a tenth more cells.
 */
export const lean: Inputs = { lifted: "NO", detailing: "NO", web: "YES" };

/** Those inputs that decide which rows there are. */
export function shapeOnly({ shape }: Template, inputs: Inputs): Inputs {
  const shaping = new Set(shape.map(({ id }) => id));
  return Object.fromEntries(Object.entries(inputs).filter(([id]) => shaping.has(id)));
}
