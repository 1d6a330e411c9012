import { worksheetFunctions, type WorksheetFunction } from "../../functions/index.ts";
import { basesOf } from "../fuzz/fuzz.ts";
import { mostRows, takesRange, withLongRanges } from "../fuzz/longRanges.ts";

const seed = 1980;

/** Milliseconds of the processor for a call with so many rows, the middle of several. */
function cost(f: WorksheetFunction, rows: number): number {
  const costs = basesOf(f, seed)
    .slice(0, 7)
    .flatMap((base) => {
      const args = withLongRanges(f, base, rows);
      if (args === undefined) return [];
      const before = process.cpuUsage();
      f.call(args);
      const { user, system } = process.cpuUsage(before);
      return [(user + system) / 1000];
    })
    .sort((a, b) => a - b);
  return costs[Math.floor(costs.length / 2)] ?? NaN;
}

/** How the cost of each function with a range grows with its rows, up to as many as are allowed. */
export function longRanges(): void {
  console.log("ranges: rows and milliseconds of a call; no call is to take more than 200");
  for (const f of worksheetFunctions.filter(takesRange)) {
    const most = mostRows(f);
    const sizes = [8, 4, 2, 1].map((part) => Math.max(3, Math.floor(most / part)));
    const shown = sizes.map((rows) => `${rows}: ${cost(f, rows).toFixed(1)}`.padStart(14)).join("");
    console.log(`  ${f.id.padEnd(46)}${shown}`);
  }
}
