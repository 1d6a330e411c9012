import { toNumber } from "../values/convert.ts";
import { criterion } from "../values/criteria.ts";
import type { Frame, NativeFunction, Node } from "../values/frame.ts";
import { finite } from "../values/operators.ts";
import {
  Block,
  broadcast,
  cannot,
  divisionByZero,
  each,
  Fault,
  single,
  wrongNumber,
  wrongValue,
  type Scalar,
  type Value,
} from "../values/values.ts";
import { any, whole } from "./define.ts";

/** The numbers of the arguments: of ranges and arrays the numbers alone, of single values what they mean. The first error is the result. */
function numbers(values: readonly Value[]): readonly number[] | Fault {
  const out: number[] = [];
  for (const value of values) {
    if (!(value instanceof Block)) {
      const number = toNumber(value);
      if (number instanceof Fault) return number;
      out.push(number);
      continue;
    }
    for (let r = 0; r < value.rows; r++) {
      for (let c = 0; c < value.columns; c++) {
        const scalar = value.at(r, c);
        if (typeof scalar === "number") out.push(scalar);
        else if (scalar instanceof Fault) return scalar;
      }
    }
  }
  return out;
}

const of = (f: (all: readonly number[]) => number | Fault): NativeFunction =>
  whole(1, any, (...values) => {
    const all = numbers(values);
    if (all instanceof Fault) return all;
    const result = f(all);
    return result instanceof Fault ? result : finite(result);
  });

const sum = (all: readonly number[]): number => all.reduce((a, b) => a + b, 0);

function counting(counts: (scalar: Scalar, ofBlock: boolean) => boolean): NativeFunction {
  return whole(1, any, (...values) => {
    let n = 0;
    for (const value of values) for (const scalar of each(value)) if (counts(scalar, value instanceof Block)) n++;
    return n;
  });
}

function ranked(values: readonly Value[], order: (a: number, b: number) => number): Value {
  const all = numbers([values[0]!]);
  if (all instanceof Fault) return all;
  return broadcast([values[1]!], (k) => {
    const place = toNumber(k);
    if (place instanceof Fault) return place;
    return [...all].sort(order)[Math.ceil(place) - 1] ?? wrongNumber;
  });
}

/** Which cells of equal blocks meet all criteria; a fault where the blocks differ in size. */
function meeting(pairs: readonly Value[]): ((r: number, c: number) => boolean) | Fault {
  const tests: { readonly block: Block; readonly holds: (v: Scalar) => boolean }[] = [];
  for (let i = 0; i + 1 < pairs.length; i += 2) {
    const block = pairs[i];
    if (block instanceof Fault) return block;
    if (!(block instanceof Block)) return cannot("a criterion for something that is no range");
    const wanted = single(pairs[i + 1]!);
    if (wanted === undefined) return cannot("a range of criteria");
    const [first] = tests;
    if (first && (first.block.rows !== block.rows || first.block.columns !== block.columns)) return wrongValue;
    tests.push({ block, holds: criterion(wanted) });
  }
  return (r, c) => tests.every(({ block, holds }) => holds(block.at(r, c)));
}

/** What a function of a range and its criteria makes of the numbers that meet them. */
function conditional(
  split: (values: readonly Value[]) => { readonly summed: Value; readonly pairs: readonly Value[] },
  f: (all: readonly number[]) => number | Fault,
  min: number,
  max: number,
): NativeFunction {
  const run = (args: readonly Node[], frame: Frame): Value => {
    const { summed, pairs } = split(args.map((arg) => arg(frame)));
    const meets = meeting(pairs);
    if (meets instanceof Fault) return meets;
    const range = pairs[0] as Block;
    const from = summed;
    if (!(from instanceof Block)) return from instanceof Fault ? from : wrongValue;
    // The programs read on beyond a range that is too small, where its formula does not say so.
    if (from.rows !== range.rows || from.columns !== range.columns) return cannot("ranges of different sizes");
    const found: number[] = [];
    for (let r = 0; r < range.rows; r++) {
      for (let c = 0; c < range.columns; c++) {
        if (!meets(r, c)) continue;
        const value = from.at(r, c);
        if (value instanceof Fault) return value;
        if (typeof value === "number") found.push(value);
      }
    }
    return f(found);
  };
  return { min, max, run };
}

const oneCriterion = (values: readonly Value[]) => ({ summed: values[2] ?? values[0]!, pairs: values.slice(0, 2) });
const severalCriteria = ([summed, ...pairs]: readonly Value[]) => ({ summed: summed!, pairs });
const mean = (all: readonly number[]): number | Fault => (all.length === 0 ? divisionByZero : sum(all) / all.length);

const countIfs = (...values: readonly Value[]): Value => {
  const meets = meeting(values);
  if (meets instanceof Fault) return meets;
  const { rows, columns } = values[0] as Block;
  let n = 0;
  for (let r = 0; r < rows; r++) for (let c = 0; c < columns; c++) if (meets(r, c)) n++;
  return n;
};

export const statistics: Readonly<Record<string, NativeFunction>> = {
  SUM: of(sum),
  PRODUCT: of((all) => (all.length === 0 ? 0 : all.reduce((a, b) => a * b, 1))),
  SUMSQ: of((all) => sum(all.map((a) => a * a))),
  AVERAGE: of(mean),
  MAX: of((all) => all.reduce((a, b) => (b > a ? b : a), all[0] ?? 0)),
  MIN: of((all) => all.reduce((a, b) => (b < a ? b : a), all[0] ?? 0)),
  MEDIAN: of((all) => {
    const sorted = [...all].sort((a, b) => a - b);
    const middle = sorted.length / 2;
    return sorted.length === 0 ? wrongNumber : (sorted[Math.ceil(middle) - 1]! + sorted[Math.floor(middle)]!) / 2;
  }),
  LARGE: whole(2, 2, (...values) => ranked(values, (a, b) => b - a), "with"),
  SMALL: whole(2, 2, (...values) => ranked(values, (a, b) => a - b), "with"),
  COUNT: counting(
    (s, ofBlock) => typeof s === "number" || (!ofBlock && !(s instanceof Fault) && !(toNumber(s) instanceof Fault)),
  ),
  COUNTA: counting((s) => s !== null),
  COUNTBLANK: whole(1, 1, (value) => [...each(value)].filter((s) => s === null || s === "").length),
  COUNTIF: whole(
    2,
    2,
    (range, wanted) =>
      single(wanted) !== undefined
        ? countIfs(range, wanted)
        : broadcast([wanted!], (one) => countIfs(range, one) as Scalar),
    "with",
  ),
  COUNTIFS: whole(2, any, countIfs),
  SUMIF: conditional(oneCriterion, (all) => finite(sum(all)), 2, 3),
  SUMIFS: conditional(severalCriteria, (all) => finite(sum(all)), 3, any),
  AVERAGEIF: conditional(oneCriterion, mean, 2, 3),
  AVERAGEIFS: conditional(severalCriteria, mean, 3, any),
};
