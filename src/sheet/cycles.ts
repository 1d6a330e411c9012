import { a1 } from "../cells/index.ts";
import type { Dependency } from "./builder.ts";

const key = (row: number, column: number): number => row * 1000 + column;

/** A formula that needs its own result, as the chain of places it runs through; undefined where there is none. */
export function findCycle(dependencies: readonly Dependency[]): string | undefined {
  const formulas = new Map(dependencies.map((d) => [key(d.at.row, d.at.column), d]));
  const state = new Map<number, "open" | "done">();
  const needs = (d: Dependency): number[] => {
    const out: number[] = [];
    for (const { row, column, rows, columns } of d.reads) {
      for (let r = row; r < row + rows; r++)
        for (let c = column; c < column + columns; c++) if (formulas.has(key(r, c))) out.push(key(r, c));
    }
    return out;
  };
  for (const start of formulas.keys()) {
    if (state.has(start)) continue;
    const path: { at: number; rest: number[] }[] = [{ at: start, rest: needs(formulas.get(start)!) }];
    state.set(start, "open");
    while (path.length > 0) {
      const top = path.at(-1)!;
      const next = top.rest.pop();
      if (next === undefined) {
        state.set(top.at, "done");
        path.pop();
      } else if (state.get(next) === "open") {
        const chain = [...path.slice(path.findIndex(({ at }) => at === next)).map(({ at }) => at), next].map((at) =>
          formulas.get(at)!,
        );
        const places = chain.map(({ place, at }) => `${place} [${a1(at)}]`);
        return places.filter((place, i) => i === 0 || place !== places[i - 1]).join(" needs ");
      } else if (!state.has(next)) {
        state.set(next, "open");
        path.push({ at: next, rest: needs(formulas.get(next)!) });
      }
    }
  }
  return undefined;
}
