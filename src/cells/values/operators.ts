import { toFifteenDigits } from "./rounding.ts";
import { compare, toNumber, toText } from "./convert.ts";
import { divisionByZero, Fault, wrongNumber, type Scalar } from "./values.ts";

type Binary = (a: Scalar, b: Scalar) => Scalar;

/** A number that a cell can hold, else #NUM!. */
export function finite(value: number): number | Fault {
  return Number.isFinite(value) ? value : wrongNumber;
}

/** A power as cells compute it: 0 to 0 is #NUM!, 0 to a negative exponent #DIV/0!. */
export function power(base: number, exponent: number): number | Fault {
  if (base === 0 && exponent === 0) return wrongNumber;
  if (base === 0 && exponent < 0) return divisionByZero;
  return finite(base ** exponent);
}

const numeric =
  (f: (a: number, b: number) => number | Fault): Binary =>
  (a, b) => {
    if (typeof a === "number" && typeof b === "number") return f(a, b);
    const left = toNumber(a);
    if (left instanceof Fault) return left;
    const right = toNumber(b);
    return right instanceof Fault ? right : f(left, right);
  };

const comparing =
  (f: (order: number) => boolean): Binary =>
  (a, b) => {
    if (a instanceof Fault) return a;
    if (b instanceof Fault) return b;
    return f(compare(a, b));
  };

/** The operators between two values; those of references (range, union, intersection) are not among them. */
export const binary: Readonly<Record<string, Binary>> = {
  "+": numeric((a, b) => finite(a + b)),
  "-": numeric((a, b) => finite(a - b)),
  "*": numeric((a, b) => finite(a * b)),
  "/": numeric((a, b) => (b === 0 ? divisionByZero : finite(a / b))),
  "^": numeric(power),
  "&": (a, b) => {
    const left = toText(a);
    if (left instanceof Fault) return left;
    const right = toText(b);
    return right instanceof Fault ? right : left + right;
  },
  "=": comparing((order) => order === 0),
  "<>": comparing((order) => order !== 0),
  "<": comparing((order) => order < 0),
  "<=": comparing((order) => order <= 0),
  ">": comparing((order) => order > 0),
  ">=": comparing((order) => order >= 0),
};

/** The same with 15 digits before and after. */
export const inFifteenDigits =
  (f: Binary): Binary =>
  (a, b) =>
    toFifteenDigits(f(toFifteenDigits(a), toFifteenDigits(b)));

const one =
  (f: (a: number) => number): ((a: Scalar) => Scalar) =>
  (a) => {
    const value = toNumber(a);
    return value instanceof Fault ? value : f(value);
  };

export const unary: Readonly<Record<string, (a: Scalar) => Scalar>> = {
  "-": one((a) => -a),
  "%": one((a) => a / 100),
  "+": (a) => a,
};
