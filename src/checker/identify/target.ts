import type { Book, FormulaCell } from "../../cells/index.ts";
import type { Label } from "../trace/labels.ts";
import type { Cut } from "./cuts.ts";
import { drawing } from "./draws.ts";
import type { Labels } from "./labelled.ts";
import { partKey, Program, valueAt, type TypedNumber } from "./program.ts";
import { isRare } from "./scales.ts";
import { bothShapes, directionOf, shapeKey, shapeOf, stretches, type Shape } from "./shape.ts";

/** What may be an argument: a cell, or a number typed inside the formula. */
export interface TargetInput {
  readonly label: Label | undefined;
  readonly value: number;
  /** The number of the cell. */
  readonly key?: number;
  /** A part of the formula, as written. */
  readonly part?: string;
  /** The place among the typed numbers, with what it is. */
  readonly typed?: Typed;
}

/** A typed number that is tried as an argument, or as one over it. */
export interface Typed {
  readonly at: number;
  /** The same number typed elsewhere in the formula. */
  readonly also: readonly number[];
  readonly number: TypedNumber;
  readonly inverse?: true;
}

/** How much may be tried for a formula looked at in one way; what is not found within it is not found. */
export class Effort {
  left: number;
  constructor(readonly most = 20_000) {
    this.left = most;
  }
}

/** A formula looked at in one way, with values about those of the sheet. */
export interface Target {
  readonly cell: FormulaCell;
  readonly cut: Cut;
  readonly program: Program;
  readonly inputs: readonly TargetInput[];
  readonly label: Label | undefined;
  /** Most inputs have a symbol or words beside them. */
  readonly labelled: boolean;
  /** A label names a unit that is tried only then. */
  readonly rareUnits: boolean;
  /** With the sheet's own inputs. */
  readonly value: number;
  /** Places about the sheet's values, that itself first, and the values there. */
  readonly places: readonly (readonly number[])[];
  readonly values: readonly number[];
  readonly shapes: readonly Shape[];
  /** Of the first place alone. */
  readonly shapeKeys: readonly string[];
  /** Of the first place alone: 1 where the value's size rises with the input, −1 where it falls. */
  readonly directions: readonly number[];
  readonly run: (inputs: ArrayLike<number>) => number;
  readonly effort: Effort;
}

const about = 6;

/** Where the sheet holds nothing or 0, something has to be tried. */
const standIn = 1;

function placesAbout(inputs: readonly TargetInput[]): readonly (readonly number[])[] {
  const chance = drawing(7 + inputs.length);
  const base = inputs.map(({ value }) => (value === 0 ? standIn : value));
  const moved = Array.from({ length: about - 1 }, () => base.map((v) => v * (0.78 + 0.5 * chance())));
  return [base, ...moved];
}

/** Whether a value changes when one input does. */
function shapesAbout(
  run: Target["run"],
  places: readonly (readonly number[])[],
): Pick<Target, "shapes" | "shapeKeys" | "directions"> | undefined {
  const shapes: Shape[] = [];
  const shapeKeys: string[] = [];
  const directions: number[] = [];
  const count = places[0]!.length;
  for (let i = 0; i < count; i++) {
    let all: Shape | undefined;
    for (const [n, place] of places.slice(0, 2).entries()) {
      const changed = [...place];
      const values = stretches.map((by) => {
        changed[i] = place[i]! * by;
        return run(changed);
      });
      const shape = shapeOf(values[0]!, values[1]!, values[2]!);
      if (shape) all = all ? bothShapes(all, shape) : shape;
      if (n > 0) continue;
      shapeKeys.push(shape ? shapeKey(shape) : "");
      directions.push(directionOf(values[0]!, values[1]!));
    }
    if (!all) return undefined;
    shapes.push(all);
  }
  return { shapes, shapeKeys, directions };
}

/** The target of a cut as it is; undefined where it has no value about the sheet's own, or an input that changes nothing. */
export function targetOf(book: Book, cell: FormulaCell, cut: Cut, labels: Labels, effort: Effort): Target | undefined {
  const { part } = cut;
  const program = new Program(book, part ? cut.steps[0]! : cell, cut.inputs, cut.steps, part?.around);
  const inputs = cut.inputs.map((key): TargetInput => {
    if (part && key === partKey) return { part: part.text, label: undefined, value: part.value };
    return { key, label: labels.of(key), value: valueAt(book, key) as number };
  });
  return completed(cell, cut, program, inputs, labels.of(cell.key), (given) => program.run(given), effort);
}

const turned = ({ inverse }: Typed, value: number): number => (inverse ? 1 / value : value);

/** The same with some typed numbers as inputs too. */
export function targetWith(of: Target, typed: readonly Typed[]): Target | undefined {
  const { program, cut } = of;
  const count = of.inputs.length;
  const inputs = [
    ...of.inputs,
    ...typed.map((one): TargetInput => ({ typed: one, label: undefined, value: turned(one, one.number.value) })),
  ];
  const run = (given: ArrayLike<number>): number => {
    typed.forEach((one, i) => {
      for (const at of [one.at, ...one.also]) program.change(at, turned(one, given[count + i]!));
    });
    const value = program.run(given);
    for (const { at, also } of typed) for (const one of [at, ...also]) program.change(one, undefined);
    return value;
  };
  return completed(of.cell, cut, program, inputs, of.label, run, of.effort);
}

function completed(
  cell: FormulaCell,
  cut: Cut,
  program: Program,
  inputs: readonly TargetInput[],
  label: Label | undefined,
  run: Target["run"],
  effort: Effort,
): Target | undefined {
  const tried = placesAbout(inputs).map((place) => ({ place, value: run(place) }));
  const size = Math.max(...tried.map(({ value }) => (Number.isFinite(value) ? Math.abs(value) : 0)));
  if (!Number.isFinite(tried[0]!.value) || size === 0) return undefined;
  // Where terms cancel on the sheet, another place leads.
  const isSmall = (value: number): boolean => !(Math.abs(value) > 0.01 * size);
  tried.sort((a, b) => Number(isSmall(a.value)) - Number(isSmall(b.value)));
  const places = tried.map(({ place }) => place);
  const values = tried.map(({ value }) => value);
  const shapes = shapesAbout(run, places);
  const value = run(inputs.map((input) => input.value));
  const rareUnits = [label, ...inputs.map((input) => input.label)].some((l) => l !== undefined && isRare(l.unit));
  const spoken = inputs.filter((input) => Boolean(input.label?.symbol || input.label?.description));
  const labelled = spoken.length > inputs.length / 2;
  return (
    shapes && { cell, cut, program, inputs, label, labelled, rareUnits, value, places, values, ...shapes, run, effort }
  );
}
