import {
  binaryNode,
  callNode,
  movedDown,
  nameNode,
  numberNode,
  ourFunction,
  parseFormula,
  readFormula,
  sheetsIn,
  textNode,
  withCalls,
  writeNode,
  type CallNode,
  type FormulaNode,
} from "../../cells/index.ts";
import { version } from "../../core/index.ts";
import { fits } from "./fitting.ts";
import type { PortableFunctions } from "./functions.ts";

/**
 * Why a formula stays a value: functions that no formula of cells can say; cells of a sheet that is not copied; a call
 * with more arguments than its function has; longer than programs take a formula.
 */
export type WhyStaying = "functions" | "elsewhere" | "arguments" | "long";

/** A formula of a copy, or why its cell keeps a value. */
export type CopiedFormula =
  | {
      readonly computes: true;
      /** With its leading `=`, rows moved. */
      readonly formula: string;
      /** The calls in it that may be refused. */
      readonly calls: readonly FormulaNode[];
    }
  | {
      readonly computes: false;
      readonly why: WhyStaying;
      /** Of the functions that are why; none for another reason. */
      readonly ids: readonly string[];
      readonly warns: boolean;
    };

/** Functions that only say something beside the calculation. */
const beside: ReadonlySet<string> = new Set(["WARNINGS", "WARNINGS_CODE", "INPUT_WARNINGS", "CHECKED"]);

/** A formula of nothing but warnings keeps its text; anything else in it makes it a value like others. */
const staysAs = (why: WhyStaying, ids: readonly string[] = []): CopiedFormula => ({
  computes: false,
  why,
  ids,
  warns: ids.length > 0 && ids.every((id) => beside.has(id)),
});

/** A call that no copy can have. */
class Stays extends Error {
  override readonly name = "Stays";
  constructor(readonly id: string) {
    super(id);
  }
}

function inputKey(call: CallNode): string | undefined {
  const [key, cell] = call.arguments;
  const single = cell?.type === "ReferenceIdentifier" && cell.kind === "range" && !cell.value.includes(":");
  if (call.arguments.length !== 2 || !single || key?.type !== "Literal") return undefined;
  return typeof key.value === "string" ? key.value : undefined;
}

/** Another call of ours in place of the add-in's; throws Stays where there is none. */
function otherCall(id: string, call: CallNode, functions: PortableFunctions): { node: FormulaNode; refuses: boolean } {
  if (id === "VERSION") return { node: textNode(version), refuses: false };
  if (id === "INPUT_WARNINGS") {
    const key = inputKey(call);
    const f = key === undefined ? undefined : functions.inputWarnings(key);
    if (!f) throw new Stays(id);
    return { node: functions.call(f, [call.arguments[1]!]), refuses: false };
  }
  const f = functions.of(id);
  if ("why" in f || call.arguments.length > f.params.length) throw new Stays(id);
  const given = f.params.map((_, i) => call.arguments[i] ?? textNode(""));
  return { node: functions.call(f, given), refuses: true };
}

/**
 * A formula of the original for its copy. Calls that may be refused are added to 0, so that a message does not count as a
 * value in what refers to the cell: it is an error there, as on the original.
 * @param sheets the copied sheets, in small letters
 */
export function copiedFormula(
  formula: string,
  rows: number,
  sheets: ReadonlySet<string>,
  functions: PortableFunctions,
): CopiedFormula {
  const read = readFormula(formula);
  const ids = [...new Set(read.calls.map(({ id }) => id))];
  const strange = sheetsIn(formula).some((sheet) => !sheets.has(sheet.toLowerCase()));
  if (strange) return staysAs("elsewhere");
  if (ids.length === 0) return { computes: true, formula: movedDown(formula, rows, sheets), calls: [] };
  const calls: FormulaNode[] = [];
  try {
    const tree = withCalls(parseFormula(movedDown(formula, rows, sheets)), (call) => {
      const id = call.callee.name === undefined ? undefined : ourFunction(call.callee.name);
      if (id === undefined) return undefined;
      const { node, refuses } = otherCall(id, call, functions);
      if (!refuses) return node;
      calls.push(node);
      return binaryNode("+", node, numberNode(0));
    });
    const text = `=${writeNode(tree)}`;
    if (!fits(text)) return staysAs("long");
    return { computes: true, formula: text, calls };
  } catch (error) {
    if (!(error instanceof Stays)) throw error;
    const staying = ids.filter((id) => {
      const f = functions.of(id);
      return "why" in f && id !== "VERSION" && id !== "INPUT_WARNINGS";
    });
    const why = staying.length > 0 ? staying : error.id === "INPUT_WARNINGS" ? [error.id] : [];
    return staysAs(why.length > 0 ? "functions" : "arguments", why);
  }
}

/** A value that stands for a formula: gone once an input that it depends on is another. */
export function stayingFormula(
  value: string | number | boolean | null,
  error: string | undefined,
  changed: string,
): string {
  const node: FormulaNode =
    error !== undefined
      ? { type: "ErrorLiteral", value: error }
      : value === null
        ? textNode("")
        : typeof value === "number"
          ? numberNode(value)
          : typeof value === "boolean"
            ? nameNode(value ? "TRUE" : "FALSE")
            : textNode(value);
  const isChanged = binaryNode(">", parseFormula(`=${changed}`), numberNode(0));
  return `=${writeNode(callNode("IF", isChanged, callNode("NA"), node))}`;
}
