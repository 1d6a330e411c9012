import type { GridRuntime } from "./runtime.ts";

/** A number as people write it, also with zeros that say nothing: 1395.0, 0.20, .5, 1E3. */
const numeral = /^[+-]?(\d+\.?\d*|\.\d+)(e[+-]?\d+)?$/i;

const mended = new WeakSet();

/**
 * The grid takes a number in a formula for text unless it is written as the grid itself would write it: 1395 and 0.2,
 * but not 1395.0 and 0.20. Here it is read as the number it is, before the grid looks at how it is written. Texts in
 * quotes and cells that hold text come another way.
 */
export function readEveryNumeral({ formula }: Pick<GridRuntime, "formula">): void {
  const factory = formula.ValueObjectFactory;
  if (mended.has(factory)) return;
  mended.add(factory);
  const create = factory.create.bind(factory);
  factory.create = (raw, ...rest) => {
    const number = typeof raw === "string" && numeral.test(raw.trim()) ? Number(raw) : NaN;
    return create(Number.isFinite(number) ? number : raw, ...rest);
  };
}
