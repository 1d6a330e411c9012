import { NoResult } from "../../errors.ts";
import { stepwise } from "../../formula.ts";
import { table } from "../../parameters.ts";
import { q } from "../../quantities/index.ts";
import { mechanics } from "../mechanics.ts";

/** The stations of a member: every place that can govern, once, from left to right. */
export const station = stepwise({
  id: "STATION",
  family: "loading",
  summary: "The n-th of the places along the span, in order, places closer than δ counted once",
  notes: ["Where fewer places differ than n, the last one is repeated, so that a table of stations keeps its length."],
  source: mechanics,
  params: {
    places: table({ key: "places", symbol: "x_i", text: "places along the span", columns: { x: q.place }, minRows: 1 }),
    n: q.rank,
    delta: q.placeTolerance,
  },
  result: { ...q.station, reads: "m" },
  steps: {
    x: {
      symbol: "x",
      unit: "m",
      reads: "m",
      governing: "x_n = \\min\\{x_i : x_i > x_{n-1} + \\delta\\},\\quad x_1 = \\min x_i",
      text: "the next place to the right",
    },
  },
  compute: ({ places, n, delta }) => {
    const sorted = places.map((p) => p.x).sort((a, b) => a - b);
    const distinct: number[] = [];
    for (const x of sorted) if (distinct.length === 0 || x > distinct.at(-1)! + delta) distinct.push(x);
    const x = distinct[Math.min(n, distinct.length) - 1];
    if (x === undefined) throw new NoResult("there are no places along the span");
    return { x };
  },
  /** Counts from the other side: the n-th distinct place has n − 1 distinct places before it. */
  proof: ({ places, n, delta }, { x }) => {
    let count = 0;
    let last = -Infinity;
    for (const p of [...places].sort((a, b) => a.x - b.x)) {
      if (p.x <= last + delta || p.x > x) continue;
      count++;
      last = p.x;
    }
    const more = places.some((p) => p.x > x + delta);
    return more ? count - n : Math.max(0, count - n);
  },
  unpublished: "Sorting; nothing to compare with.",
});
