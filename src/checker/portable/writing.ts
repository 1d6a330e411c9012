import { callNode, nameNode, type FormulaNode } from "../../cells/index.ts";
import { definedName } from "./names.ts";
import { quotedNode, refusedNumberNode, shownNode, type RefusedNumber } from "./shown.ts";

/** A function in the language of cells. */
export interface PortableFunction {
  readonly id: string;
  /** The name that stands for it in a workbook. */
  readonly name: string;
  /** Its arguments, in worksheet order. */
  readonly params: readonly string[];
  /** What it gives, with `params` as names. */
  readonly body: FormulaNode;
}

/** How messages write numbers and entries. */
export interface Writing {
  shown(value: FormulaNode): FormulaNode;
  quoted(cell: FormulaNode): FormulaNode;
  refusedNumber(parts: RefusedNumber): FormulaNode;
}

const parts = ["kind", "cell", "name", "unit", "low", "high", "allowed", "beyond"] as const;
const local = (part: string): string => `${part}_m`;
const refusedBy = (shown: Writing["shown"], quoted: Writing["quoted"]): FormulaNode =>
  refusedNumberNode(
    Object.fromEntries(parts.map((part) => [part, nameNode(local(part))])) as Record<
      (typeof parts)[number],
      FormulaNode
    >,
    shown,
    quoted,
  );

const helper = (id: string, params: readonly string[], body: FormulaNode): PortableFunction => ({
  id,
  name: definedName(id),
  params,
  body,
});
const shownHelper = helper("SHOWN_NUMBER", ["number_v"], shownNode(nameNode("number_v")));
const quotedHelper = helper("QUOTED", ["entry_v"], quotedNode(nameNode("entry_v")));
const call =
  ({ name }: Pick<PortableFunction, "name">) =>
  (...given: readonly FormulaNode[]): FormulaNode =>
    callNode(name, ...given);
const refusedHelper = helper("REFUSED_NUMBER", parts.map(local), refusedBy(call(shownHelper), call(quotedHelper)));

/** What functions call that write with helpers. */
export const helpers: readonly PortableFunction[] = [shownHelper, quotedHelper, refusedHelper];

/** With helpers that the workbook names. */
export const withHelpers: Writing = {
  shown: call(shownHelper),
  quoted: call(quotedHelper),
  refusedNumber: (given) => callNode(refusedHelper.name, ...parts.map((part) => given[part])),
};
