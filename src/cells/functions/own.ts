import type { Argument } from "../../core/index.ts";
import { ourFunction } from "../language/ourFunction.ts";
import type { Frame, Node } from "../values/frame.ts";
import { Fault, Rows, single, type Block, type Scalar, type Value } from "../values/values.ts";

/** A worksheet function of the workbook's own, as it computes. */
export interface OwnFunction {
  /** `rows`: it fills several cells. */
  readonly result: "number" | "string" | "rows";
  readonly call: (args: readonly Argument[]) => OwnResult;
}
export type Plain = Exclude<Scalar, Fault>;
export type OwnResult =
  | { readonly value: Plain | readonly (readonly Plain[])[] }
  | { readonly error: { readonly code: string; readonly message?: string } };

/**
 * The functions a formula may call beside the program's: by their id without the namespace; by `definedKey` those that
 * the workbook itself defines.
 */
export type OwnFunctions = ReadonlyMap<string, OwnFunction>;

/** The key of a function that the workbook defines: never an id of ours, which is none without its namespace. */
export const definedKey = (name: string): string => `=${name.toUpperCase()}`;

/** Calls one of our functions with what its arguments give, as a cell does: an error among them is the result. */
function call(f: OwnFunction, nodes: readonly Node[], frame: Frame): Value {
  const args: (Plain | Plain[][])[] = [];
  for (const node of nodes) {
    const value = node(frame);
    const one = single(value);
    if (one instanceof Fault) return one;
    if (one !== undefined) {
      args.push(one);
      continue;
    }
    const { rows, columns } = value as Block;
    const cells: Plain[][] = [];
    for (let r = 0; r < rows; r++) {
      const row: Plain[] = [];
      for (let c = 0; c < columns; c++) {
        const cell = (value as Block).at(r, c);
        if (cell instanceof Fault) return cell;
        row.push(cell);
      }
      cells.push(row);
    }
    args.push(cells);
  }
  const result = f.call(args);
  if ("error" in result) return new Fault(result.error.code, result.error.message);
  return isRows(result.value) ? new Rows(result.value) : result.value;
}

const isRows = (value: Plain | readonly (readonly Plain[])[]): value is readonly (readonly Plain[])[] =>
  Array.isArray(value);

/** One of our functions by its name in a formula, stored or as typed; undefined where it is none. */
export function ownFunction(
  functions: OwnFunctions,
  name: string,
): { readonly run: (nodes: readonly Node[], frame: Frame) => Value; readonly fills: boolean } | undefined {
  const id = ourFunction(name);
  const f = functions.get(id ?? definedKey(name));
  return f && { run: (nodes, frame) => call(f, nodes, frame), fills: f.result === "rows" };
}
