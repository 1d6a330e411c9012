import { numberOfText, toCondition, toNumber, toText } from "../values/convert.ts";
import type { NativeFunction } from "../values/frame.ts";
import { formatted } from "../values/numberFormat.ts";
import { roundTo } from "../values/rounding.ts";
import { each, Fault, wrongValue, type Scalar } from "../values/values.ts";
import { any, lifted, whole } from "./define.ts";

/** A lifted function of a text and numbers. */
function ofText(min: number, max: number, f: (text: string, ...numbers: number[]) => Scalar): NativeFunction {
  return lifted(min, max, (first, ...rest) => {
    const text = toText(first);
    if (text instanceof Fault) return text;
    const numbers: number[] = [];
    for (const scalar of rest) {
      const number = toNumber(scalar);
      if (number instanceof Fault) return number;
      numbers.push(Math.trunc(number));
    }
    return f(text, ...numbers);
  });
}

const joined = whole(1, any, (...values) => {
  let text = "";
  for (const value of values) {
    for (const scalar of each(value)) {
      const next = toText(scalar);
      if (next instanceof Fault) return next;
      text += next;
    }
  }
  return text;
});

export const texts: Readonly<Record<string, NativeFunction>> = {
  CONCAT: joined,
  CONCATENATE: lifted(1, any, (...scalars) => {
    let text = "";
    for (const scalar of scalars) {
      const next = toText(scalar);
      if (next instanceof Fault) return next;
      text += next;
    }
    return text;
  }),
  LEN: ofText(1, 1, (text) => text.length),
  FIND: lifted(2, 3, (...scalars) => {
    const [wanted, within] = [toText(scalars[0]!), toText(scalars[1]!)];
    if (wanted instanceof Fault) return wanted;
    if (within instanceof Fault) return within;
    const from = scalars.length > 2 ? toNumber(scalars[2]!) : 1;
    if (from instanceof Fault) return from;
    const start = Math.trunc(from);
    if (start < 1 || start > within.length + 1) return wrongValue;
    const found = within.indexOf(wanted, start - 1);
    return found < 0 ? wrongValue : found + 1;
  }),
  LEFT: ofText(1, 2, (text, n = 1) => (n < 0 ? wrongValue : text.slice(0, n))),
  RIGHT: ofText(1, 2, (text, n = 1) => (n < 0 ? wrongValue : n === 0 ? "" : text.slice(-n))),
  MID: ofText(3, 3, (text, from, n) => (from < 1 || n < 0 ? wrongValue : text.slice(from - 1, from - 1 + n))),
  UPPER: ofText(1, 1, (text) => text.toUpperCase()),
  LOWER: ofText(1, 1, (text) => text.toLowerCase()),
  TRIM: ofText(1, 1, (text) => text.replace(/ +/g, " ").replace(/^ | $/g, "")),
  REPT: ofText(2, 2, (text, n) => (n < 0 || text.length * n > 32767 ? wrongValue : text.repeat(n))),
  SUBSTITUTE: lifted(3, 3, (...scalars) => {
    const [text, old, other] = scalars.map(toText) as [string | Fault, string | Fault, string | Fault];
    if (text instanceof Fault) return text;
    if (old instanceof Fault) return old;
    if (other instanceof Fault) return other;
    return old === "" ? text : text.replaceAll(old, other.replaceAll("$", "$$$$"));
  }),
  FIXED: lifted(1, 3, (value, places = 2, plain = false) => {
    const [number, digits, without] = [toNumber(value), toNumber(places), toCondition(plain)];
    if (number instanceof Fault) return number;
    if (digits instanceof Fault) return digits;
    if (without instanceof Fault) return without;
    const n = Math.trunc(digits);
    if (n > 100) return wrongValue;
    const text = roundTo(number, n, "nearest").toFixed(Math.max(0, n));
    return without ? text : text.replace(/\B(?=(\d{3})+(?!\d))(?<!\.\d*)/g, ",");
  }),
  VALUE: lifted(1, 1, (value) => {
    if (typeof value === "number" || value instanceof Fault) return value;
    return typeof value === "boolean" ? wrongValue : value === null ? 0 : (numberOfText(value) ?? wrongValue);
  }),
  EXACT: lifted(2, 2, (a, b) => {
    const [first, second] = [toText(a), toText(b)];
    return first instanceof Fault ? first : second instanceof Fault ? second : first === second;
  }),
  TEXT: lifted(2, 2, (value, format) => {
    if (value instanceof Fault) return value;
    const code = toText(format);
    if (code instanceof Fault) return code;
    const number = typeof value === "string" ? numberOfText(value) : value;
    return typeof number === "number" || number === null ? formatted(number ?? 0, code) : toText(value);
  }),
};
