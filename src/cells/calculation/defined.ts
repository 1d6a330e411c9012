import { parseFormula } from "../language/parse.ts";
import { withPrefix } from "../language/pieces.ts";
import type { LambdaNode } from "../language/tree.ts";
import type { Frame } from "../values/frame.ts";
import { cannot, Fault, Rows, single, type Block, type Value } from "../values/values.ts";
import { definedKey, type OwnFunction, type OwnFunctions, type OwnResult, type Plain } from "../functions/own.ts";
import { compileLambda } from "./compile.ts";

/** A function that a workbook defines by a name: `LAMBDA(…)`, with or without `=`. */
export interface Definition {
  readonly name: string;
  readonly formula: string;
}

/** A defined function reads no cells but those it is handed. */
const nowhere: Frame["reader"] = {
  where: {
    sheetNumber: () => undefined,
    nameArea: () => undefined,
    used: () => ({ rows: 0, columns: 0 }),
  },
  read: () => cannot("a cell in the definition of a function"),
};

function resultOf(value: Value): OwnResult {
  const one = single(value);
  if (one instanceof Fault)
    return { error: { code: one.code, ...(one.message !== undefined && { message: one.message }) } };
  if (one !== undefined) return { value: one };
  const { rows, columns } = value as Block;
  const cells = Array.from({ length: rows }, (_, r) =>
    Array.from({ length: columns }, (_, c) => (value as Block).at(r, c)),
  );
  const fault = cells.flat().find((cell) => cell instanceof Fault);
  return fault ? { error: { code: fault.code } } : { value: cells as readonly (readonly Plain[])[] };
}

function defined(lambda: LambdaNode, functions: OwnFunctions): OwnFunction {
  let compiled: ReturnType<typeof compileLambda> | undefined;
  return {
    result: "number",
    call: (args) => {
      // Definitions may call one another, whichever comes first.
      compiled ??= compileLambda(lambda, functions);
      const { run, locals, unfollowable } = compiled;
      if (unfollowable !== undefined) cannot(`the defined function, which has ${unfollowable}`);
      if (args.length !== lambda.params.length) return { error: { code: "#VALUE!" } };
      const places = new Array<Value>(locals).fill(null);
      args.forEach(
        (arg, i) => (places[i] = Array.isArray(arg) ? new Rows(arg as Plain[][]) : ((arg ?? null) as Plain)),
      );
      return resultOf(run({ reader: nowhere, sheet: 0, row: 0, column: 0, locals: places }));
    },
  };
}

/** Our functions and those that a workbook defines, for its formulas. */
export function definedFunctions(functions: OwnFunctions, definitions: readonly Definition[]): OwnFunctions {
  if (definitions.length === 0) return functions;
  const all = new Map(functions);
  for (const { name, formula } of definitions) {
    const tree = parseFormula(withPrefix(formula));
    if (tree.type === "LambdaExpression") all.set(definedKey(name), defined(tree, all));
  }
  return all;
}
