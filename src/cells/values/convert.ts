import { cannot, Fault, wrongValue, type Scalar } from "./values.ts";

const plainNumber = /^\s*[+-]?(?:\d+\.?\d*|\.\d+)(?:e[+-]?\d+)?\s*(%?)\s*$/i;
/** Dates, times, fractions, currencies and grouped digits: what a program makes of them depends on its language. */
const byLanguage = [
  /^\s*[+\-(]?\s*[$€£¥]?\s*\d[\d\s,.'’/:-]*(?:[ap]m)?\s*\)?\s*[%€]?\s*$/i,
  /^\s*\d{1,4}[\s./-]*(?:jan|feb|mar|apr|may|jun|jul|aug|sep|oct|nov|dec)[a-z]*[\s./-]*\d{0,4}\s*$/i,
];

/** The number a text means; undefined where it is no number. */
export function numberOfText(text: string): number | undefined {
  const plain = plainNumber.exec(text);
  if (plain) return plain[1] ? Number(text.replace("%", "")) / 100 : Number(text);
  if (byLanguage.some((form) => form.test(text)))
    cannot(`the text “${text}” as a number, which depends on the program's language`);
  return undefined;
}

/** A value as a number: blank is 0, TRUE is 1, a text the number it means, else #VALUE!. */
export function toNumber(value: Scalar): number | Fault {
  if (typeof value === "number") return value;
  if (value === null) return 0;
  if (typeof value === "boolean") return value ? 1 : 0;
  if (value instanceof Fault) return value;
  return numberOfText(value) ?? wrongValue;
}

/** A number as the programs write it without a format: at most 15 digits, no exponent but for the very large and small. */
export function textOfNumber(value: number): string {
  const short = Number(value.toPrecision(15));
  const size = Math.abs(short);
  if (size !== 0 && (size >= 1e21 || size < 1e-9)) {
    const [digits, power] = short.toExponential().split("e") as [string, string];
    return `${digits}E${power.startsWith("-") ? "-" : "+"}${power.slice(1).padStart(2, "0")}`;
  }
  const text = String(short);
  if (!text.includes("e")) return text;
  const [digits, power] = String(size).replace(".", "").split("e-") as [string, string];
  return `${short < 0 ? "-" : ""}0.${"0".repeat(Number(power) - 1)}${digits}`;
}

/** A value as a text: blank is the empty text, an error stays one. */
export function toText(value: Scalar): string | Fault {
  if (typeof value === "string" || value instanceof Fault) return value;
  if (value === null) return "";
  if (typeof value === "boolean") return value ? "TRUE" : "FALSE";
  return textOfNumber(value);
}

/** A value as a condition: numbers other than 0 are TRUE, of the texts only TRUE and FALSE mean something. */
export function toCondition(value: Scalar): boolean | Fault {
  if (typeof value === "boolean" || value instanceof Fault) return value;
  if (value === null) return false;
  if (typeof value === "number") return value !== 0;
  const word = value.trim().toUpperCase();
  return word === "TRUE" ? true : word === "FALSE" ? false : wrongValue;
}

const order = new Intl.Collator("en", { sensitivity: "accent" });
const rank = (value: number | string | boolean): number =>
  typeof value === "number" ? 0 : typeof value === "string" ? 1 : 2;

/** Texts are the same whatever their case. */
export function sameText(a: string, b: string): boolean {
  return a === b || (a.length === b.length && a.toUpperCase() === b.toUpperCase());
}

/**
 * Negative, 0 or positive as a stands before, with or after b: numbers before texts before FALSE before TRUE; texts
 * whatever their case. Blank is
 * 0, the empty text or FALSE, as the other wants it.
 */
export function compare(a: number | string | boolean | null, b: number | string | boolean | null): number {
  const left = a ?? blankLike(b);
  const right = b ?? blankLike(a);
  if (typeof left === "number" && typeof right === "number") return left - right;
  if (typeof left === "string" && typeof right === "string")
    return sameText(left, right) ? 0 : order.compare(left, right) || (left < right ? -1 : 1);
  if (typeof left === "boolean" && typeof right === "boolean") return Number(left) - Number(right);
  return rank(left) - rank(right);
}

function blankLike(other: number | string | boolean | null): number | string | boolean {
  return typeof other === "string" ? "" : typeof other === "boolean" ? false : 0;
}
