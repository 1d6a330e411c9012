import { singlesOf, type InputValue, type Template } from "../../sheet/index.ts";
import { shapeOnly } from "./shaping.ts";
import type { Steel } from "./steel.ts";

/** Tendons of the same sizes as close as this, mm, are the same proposal: their sheets would say the same. */
const alike = 5;

/** So many configurations are laid out, which takes longer than to compute ten sheets of one of them. */
const mostShapes = 4;

/** What was computed already, and is passed over. */
export class Tried {
  readonly #steel: Steel[] = [];
  readonly #shapes = new Set<string>();

  constructor(private readonly template: Template) {}

  get count(): number {
    return this.#steel.length;
  }

  /** Whether further configurations were left out of the search. */
  get leavesOut(): boolean {
    return this.#shapes.size >= mostShapes;
  }

  add(steel: Steel): void {
    this.#steel.push(steel);
    this.#shapes.add(this.#shapeOf(steel));
  }

  has(steel: Steel): boolean {
    if (this.leavesOut && !this.#shapes.has(this.#shapeOf(steel))) return true;
    const sizes = (of: Steel): string => JSON.stringify([of.inputs["strands"], of.inputs["debond"]]);
    const heights = ({ inputs }: Steel): readonly number[] =>
      singlesOf([inputs["cpy"] ?? null, inputs["yMidIn"] ?? null, inputs["yEndIn"] ?? null] as InputValue).map(Number);
    const own = heights(steel);
    return this.#steel.some(
      (one) => sizes(one) === sizes(steel) && heights(one).every((y, i) => Math.abs(y - (own[i] ?? 0)) < alike),
    );
  }

  #shapeOf({ inputs }: Steel): string {
    return JSON.stringify(shapeOnly(this.template, inputs));
  }
}
