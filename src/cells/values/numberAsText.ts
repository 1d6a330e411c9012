/** A number that stands in a cell as text, with a decimal point or comma: most formulas do not compute with it. */
export function isNumberAsText(value: unknown): boolean {
  return typeof value === "string" && value.trim() !== "" && !Number.isNaN(Number(value.replace(",", ".")));
}
