import { a1, type Area } from "../cells/index.ts";
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

  /** The next formula that a formula reads and that is not done, behind those it was asked for before; -1 behind the last. */
  next(at: Followed): number {
    for (; at.read < at.reads.length; at.read++, at.cell = 0) {
      const { row, column, rows, columns } = at.reads[at.read]!;
      const width = Math.min(column + columns, this.#columns) - column;
      if (width <= 0) continue;
      const cells = width * rows;
      while (at.cell < cells) {
        const line = row + Math.floor(at.cell / width);
        // Beyond the last row there is none: undefined - 1 is no number, and none is greater than it.
        const number = this.#numbers[line * this.#columns + column + (at.cell % width)]! - 1;
        at.cell++;
        if (number >= 0 && this.states[number] !== done) return number;
      }
    }
    return -1;
  }
}

/** A formula with the place among its reads where it has been followed to. */
interface Followed {
  readonly number: number;
  readonly reads: readonly Area[];
  read: number;
  /** Counted in that read. */
  cell: number;
}

/** A formula that needs its own result, as the chain of places it runs through; undefined where there is none. */
export function findCycle(dependencies: readonly Dependency[]): string | undefined {
  const formulas = new Formulas(dependencies);
  const { states } = formulas;
  const follow = (number: number): Followed => {
    states[number] = open;
    return { number, reads: dependencies[number]!.reads, read: 0, cell: 0 };
  };
  for (const start of dependencies.keys()) {
    if (states[start] !== unseen) continue;
    const path = [follow(start)];
    while (path.length > 0) {
      const top = path.at(-1)!;
      const next = formulas.next(top);
      if (next < 0) {
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
