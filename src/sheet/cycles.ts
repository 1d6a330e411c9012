import { a1 } from "../cells/index.ts";
import type { Dependency } from "./builder.ts";

/** How far a formula has been followed. */
const [unseen, open, done] = [0, 1, 2] as const;

/** The formulas of a sheet by place, and how far each has been followed. */
class Formulas {
  readonly #columns: number;
  /** One more than the number of the formula in each cell; 0 where there is none. */
  readonly #numbers: Int32Array;
  readonly states: Uint8Array;

  constructor(dependencies: readonly Dependency[]) {
    const last = (of: (d: Dependency) => number): number =>
      dependencies.reduce((most, d) => Math.max(most, of(d) + 1), 0);
    this.#columns = last(({ at }) => at.column);
    this.#numbers = new Int32Array(this.#columns * last(({ at }) => at.row));
    this.states = new Uint8Array(dependencies.length);
    dependencies.forEach(({ at }, n) => {
      this.#numbers[at.row * this.#columns + at.column] = n + 1;
    });
  }

  /** The formulas that a formula reads and that are not done when their turn comes. */
  *needed({ reads }: Dependency): Generator<number, undefined> {
    for (const { row, column, rows, columns } of reads) {
      const right = Math.min(column + columns, this.#columns);
      const end = Math.min((row + rows) * this.#columns, this.#numbers.length);
      for (let line = row * this.#columns; line < end; line += this.#columns)
        for (let c = column; c < right; c++) {
          const number = this.#numbers[line + c]! - 1;
          if (number >= 0 && this.states[number] !== done) yield number;
        }
    }
  }
}

/** A formula that needs its own result, as the chain of places it runs through; undefined where there is none. */
export function findCycle(dependencies: readonly Dependency[]): string | undefined {
  const formulas = new Formulas(dependencies);
  const { states } = formulas;
  const follow = (number: number) => {
    states[number] = open;
    return { number, rest: formulas.needed(dependencies[number]!) };
  };
  for (const start of dependencies.keys()) {
    if (states[start] !== unseen) continue;
    const path = [follow(start)];
    while (path.length > 0) {
      const top = path.at(-1)!;
      const next = top.rest.next().value;
      if (next === undefined) {
        states[top.number] = done;
        path.pop();
      } else if (states[next] === open) {
        const chain = [
          ...path.slice(path.findIndex(({ number }) => number === next)).map(({ number }) => number),
          next,
        ];
        const places = chain.map((number) => {
          const { place, at } = dependencies[number]!;
          return `${place} [${a1(at)}]`;
        });
        return places.filter((place, i) => i === 0 || place !== places[i - 1]).join(" needs ");
      } else path.push(follow(next));
    }
  }
  return undefined;
}
