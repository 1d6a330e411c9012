import type { CheckState, SheetInput } from "../../../src/checker/index.ts";
import { numberText, withUnit } from "../../../src/typeset/index.ts";

/** A number as typed, with either minus sign; undefined where it is none. */
export function typedNumber(text: string): number | undefined {
  const plain = text.trim().replace(/[−–]/g, "-").replace(",", ".");
  return /^[+-]?(?:\d+\.?\d*|\.\d+)(?:e[+-]?\d+)?$/i.test(plain) ? Number(plain) : undefined;
}

/** What an input's cell holds, with its unit. */
export function held(value: number | string | boolean | null, unit: string): string {
  return typeof value === "number" ? withUnit(value, unit) : value === null || value === "" ? "empty" : String(value);
}

/** "μ · friction coefficient between tendon and duct" */
export function titleOf({ symbol, description }: Pick<SheetInput, "symbol" | "description">): string {
  return symbol === "–" ? description : `${symbol} · ${description}`;
}

/** A utilisation to three places, or what stands there in place of a number. */
export function utilisationText({ utilisation, said }: CheckState): string {
  return utilisation === undefined ? said || "–" : utilisation.toFixed(3);
}

/** A difference with its sign; one too small for three places with as many as it needs. */
export function signed(change: number): string {
  if (change === 0) return "0";
  const size = Math.abs(change);
  const text = size >= 0.0005 ? size.toFixed(3) : numberText(Number(size.toPrecision(2)));
  return `${change > 0 ? "+" : "−"}${text}`;
}
