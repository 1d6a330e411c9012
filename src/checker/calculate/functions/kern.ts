import { worksheetFunctions, type WorksheetFunction } from "../../../../functions/index.ts";
import { ourFunction } from "../../formula/ourFunction.ts";
import type { Frame, Node } from "../frame.ts";
import { Fault, Rows, single, type Block, type Scalar, type Value } from "../values.ts";

const byName = new Map(worksheetFunctions.map((f) => [f.id, f]));

/** Calls one of our functions with what its arguments give, as a cell does: an error among them is the result. */
function call(f: WorksheetFunction, nodes: readonly Node[], frame: Frame): Value {
  const args: (Exclude<Scalar, Fault> | Exclude<Scalar, Fault>[][])[] = [];
  for (const node of nodes) {
    const value = node(frame);
    const one = single(value);
    if (one instanceof Fault) return one;
    if (one !== undefined) {
      args.push(one);
      continue;
    }
    const { rows, columns } = value as Block;
    const cells: Exclude<Scalar, Fault>[][] = [];
    for (let r = 0; r < rows; r++) {
      const row: Exclude<Scalar, Fault>[] = [];
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
  return typeof result.value === "object" ? new Rows(result.value) : result.value;
}

/** One of our functions by its name in a formula, stored or as typed; undefined where it is none. */
export function kernFunction(
  name: string,
): { readonly run: (nodes: readonly Node[], frame: Frame) => Value; readonly fills: boolean } | undefined {
  const id = ourFunction(name);
  const f = id === undefined ? undefined : byName.get(id);
  return f && { run: (nodes, frame) => call(f, nodes, frame), fills: f.result === "rows" };
}
