import { numberOfText } from "../values/convert.ts";
import type { NativeFunction } from "../values/frame.ts";
import { power } from "../values/operators.ts";
import { roundTo } from "../values/rounding.ts";
import {
  broadcast,
  cannot,
  divisionByZero,
  Fault,
  notFound,
  single,
  wrongNumber,
  wrongValue,
  type Scalar,
} from "../values/values.ts";
import { numeric, plain, whole } from "./define.ts";

const degrees = 180 / Math.PI;

/** To a multiple of the step; halves and signs as the programs have them. */
function ceiling(value: number, step: number): number | Fault {
  if (value === 0 || step === 0) return 0;
  if (value > 0 && step < 0) return wrongNumber;
  return roundTo(value / step, 0, value < 0 && step > 0 ? "down" : "up") * step;
}

function floor(value: number, step: number): number | Fault {
  if (value === 0) return 0;
  if (step === 0) return divisionByZero;
  if (value > 0 && step < 0) return wrongNumber;
  return roundTo(value / step, 0, value < 0 && step > 0 ? "up" : "down") * step;
}

/** Units a sheet of ours converts, in their base unit of the same kind. */
const units: Readonly<Record<string, readonly [kind: string, factor: number]>> = {
  sec: ["time", 1],
  s: ["time", 1],
  mn: ["time", 60],
  min: ["time", 60],
  hr: ["time", 3600],
  day: ["time", 86400],
  d: ["time", 86400],
  yr: ["time", 31557600],
  m: ["length", 1],
  mm: ["length", 0.001],
  cm: ["length", 0.01],
  km: ["length", 1000],
  in: ["length", 0.0254],
  ft: ["length", 0.3048],
  yd: ["length", 0.9144],
  N: ["force", 1],
  kN: ["force", 1000],
  MN: ["force", 1e6],
  lbf: ["force", 4.4482216152605],
  Pa: ["pressure", 1],
  kPa: ["pressure", 1000],
  MPa: ["pressure", 1e6],
  GPa: ["pressure", 1e9],
  g: ["mass", 1],
  kg: ["mass", 1000],
  lbm: ["mass", 453.59237],
};

function convert(value: Exclude<Scalar, Fault>, from: Exclude<Scalar, Fault>, to: Exclude<Scalar, Fault>): Scalar {
  const number = typeof value === "string" ? numberOfText(value) : Number(value);
  if (number === undefined || typeof value === "boolean") return wrongValue;
  const [a, b] = [units[String(from)], units[String(to)]];
  if (!a || !b) return cannot(`CONVERT from “${String(from)}” to “${String(to)}”`);
  return a[0] === b[0] ? (number * a[1]) / b[1] : notFound;
}

/** Sums the products of blocks of the same size; texts, blanks and truth values count as 0. */
const sumProduct: NativeFunction = whole(1, 255, (...values) => {
  const faults = values.find((v) => v instanceof Fault);
  if (faults) return faults;
  const [first] = values;
  const size = (v: typeof first): string =>
    typeof v === "object" && v !== null && "rows" in v ? `${v.rows}×${v.columns}` : "1×1";
  if (values.some((v) => size(v) !== size(first))) return wrongValue;
  const number = (s: Scalar): Scalar => (s instanceof Fault || typeof s === "number" ? s : 0);
  const products = broadcast(values, (...scalars) => {
    let product = 1;
    for (const scalar of scalars) {
      const n = number(scalar);
      if (n instanceof Fault) return n;
      product *= n as number;
    }
    return product;
  });
  const one = single(products);
  if (one !== undefined) return one;
  let sum = 0;
  const block = products as Exclude<typeof products, Scalar>;
  for (let r = 0; r < block.rows; r++) {
    for (let c = 0; c < block.columns; c++) {
      const at = block.at(r, c);
      if (at instanceof Fault) return at;
      sum += at as number;
    }
  }
  return sum;
});

const positive =
  (f: (a: number) => number) =>
  (a: number): number | Fault =>
    a > 0 ? f(a) : wrongNumber;

export const math: Readonly<Record<string, NativeFunction>> = {
  ABS: numeric(1, 1, Math.abs),
  SIGN: numeric(1, 1, Math.sign),
  SQRT: numeric(1, 1, (a) => (a < 0 ? wrongNumber : Math.sqrt(a))),
  PI: numeric(0, 0, () => Math.PI),
  EXP: numeric(1, 1, Math.exp),
  LN: numeric(1, 1, positive(Math.log)),
  LOG10: numeric(1, 1, positive(Math.log10)),
  LOG: numeric(1, 2, (a, base = 10) =>
    a <= 0 || base <= 0
      ? wrongNumber
      : base === 1
        ? divisionByZero
        : base === 10
          ? Math.log10(a)
          : Math.log(a) / Math.log(base),
  ),
  POWER: numeric(2, 2, power),
  SIN: numeric(1, 1, Math.sin),
  COS: numeric(1, 1, Math.cos),
  TAN: numeric(1, 1, Math.tan),
  ASIN: numeric(1, 1, (a) => (Math.abs(a) > 1 ? wrongNumber : Math.asin(a))),
  ACOS: numeric(1, 1, (a) => (Math.abs(a) > 1 ? wrongNumber : Math.acos(a))),
  ATAN: numeric(1, 1, Math.atan),
  // The programs take x before y.
  ATAN2: numeric(2, 2, (x, y) => (x === 0 && y === 0 ? divisionByZero : Math.atan2(y, x))),
  SINH: numeric(1, 1, Math.sinh),
  COSH: numeric(1, 1, Math.cosh),
  TANH: numeric(1, 1, Math.tanh),
  RADIANS: numeric(1, 1, (a) => a / degrees),
  DEGREES: numeric(1, 1, (a) => a * degrees),
  INT: numeric(1, 1, Math.floor),
  TRUNC: numeric(1, 2, (a, places = 0) => roundTo(a, places, "down")),
  ROUND: numeric(2, 2, (a, places) => roundTo(a, places, "nearest")),
  ROUNDUP: numeric(2, 2, (a, places) => roundTo(a, places, "up")),
  ROUNDDOWN: numeric(2, 2, (a, places) => roundTo(a, places, "down")),
  CEILING: numeric(2, 2, ceiling),
  FLOOR: numeric(2, 2, floor),
  MOD: numeric(2, 2, (a, by) => (by === 0 ? divisionByZero : a - by * Math.floor(a / by))),
  QUOTIENT: numeric(2, 2, (a, by) => (by === 0 ? divisionByZero : Math.trunc(a / by))),
  CONVERT: plain(3, 3, convert),
  SUMPRODUCT: sumProduct,
};
