import {
  anyOf,
  binaryNode,
  callNode,
  nameNode,
  numberNode,
  rowNode,
  textNode,
  type FormulaNode,
} from "../../cells/index.ts";
import { coherentUnit, readFactor, type Choice, type Parameter, type Quantity } from "../../core/index.ts";
import type { LocalNames } from "./names.ts";

/** A number times a factor, as the core converts it: by the same multiplication. */
export function scaled(of: FormulaNode, factor: number): FormulaNode {
  return factor === 1 ? of : binaryNode("*", of, numberNode(factor));
}

/** Blank, or the empty text that a formula gives. */
export const isBlankNode = (cell: FormulaNode): FormulaNode => binaryNode("=", cell, textNode(""));

/** A condition that is only looked at where another holds. */
export const onlyWhere = (holds: FormulaNode, condition: FormulaNode): FormulaNode =>
  callNode("IF", holds, condition, nameNode("FALSE"));

const wordOf = (unit: string): string =>
  unit
    .replaceAll("²", "2")
    .replaceAll("³", "3")
    .replaceAll("⁴", "4")
    .replaceAll("/", "per")
    .replaceAll(/[^A-Za-z0-9]/g, "");

/**
 * The arguments of a formula as its equations read them: each conversion and default is named once, in the order in which
 * they are asked for.
 */
export class Reading {
  readonly named: (readonly [string, FormulaNode])[] = [];
  readonly #known = new Map<string, FormulaNode>();
  readonly #names: LocalNames;

  constructor(names: LocalNames) {
    this.#names = names;
  }

  /** As the cell holds it. */
  cell(name: string): FormulaNode {
    return nameNode(this.#names.of(name));
  }

  #name(key: string, wanted: string, value: FormulaNode): FormulaNode {
    const before = this.#known.get(key);
    if (before) return before;
    const name = this.#names.another(wanted);
    this.named.push([name, value]);
    const node = nameNode(name);
    this.#known.set(key, node);
    return node;
  }

  /** A number in the unit the equations read. */
  number(name: string, quantity: Quantity): FormulaNode {
    const factor = readFactor(quantity);
    const cell = this.cell(name);
    const { default: other, reads, unit } = quantity;
    if (factor === 1 && other === undefined) return cell;
    const given = other === undefined ? cell : callNode("IF", isBlankNode(cell), numberNode(other), cell);
    const suffix = factor === 1 ? "used" : wordOf(reads ?? coherentUnit(unit));
    return this.#name(`${name} ${factor} ${String(other)}`, `${name}_${suffix}`, scaled(given, factor));
  }

  /** The word of a choice, as text. */
  choice(name: string, { default: other, values }: Choice): FormulaNode {
    const cell = this.cell(name);
    const word = callNode("TRIM", cell);
    // A number is written with a comma in some languages.
    const numbers = values.some(({ value }) => !Number.isInteger(Number(value)) && !Number.isNaN(Number(value)));
    const read = numbers ? callNode("SUBSTITUTE", word, textNode(","), textNode(".")) : word;
    const chosen = other === undefined ? read : callNode("IF", isBlankNode(cell), textNode(String(other)), read);
    return this.#name(`${name} ${String(other)} choice`, `${name}_chosen`, chosen);
  }

  /** The place of a word among those of its choice; 0 where it is none of them. */
  place(name: string, choice: Choice): FormulaNode {
    const word = this.choice(name, choice);
    const same = binaryNode("=", rowNode(choice.values.map(({ value }) => textNode(String(value)))), word);
    const places = rowNode(choice.values.map((_, i) => numberNode(i + 1)));
    return this.#name(`${name} place`, `${name}_place`, callNode("SUMPRODUCT", binaryNode("*", same, places)));
  }

  /** Whether a cell holds one of the words of a choice. */
  isKnown(name: string, choice: Choice): FormulaNode {
    if (hasManyWords(choice)) return binaryNode(">", this.place(name, choice), numberNode(0));
    return isOneOf(
      this.choice(name, choice),
      choice.values.map(({ value }) => String(value)),
    );
  }

  /** A parameter of either kind; undefined where it is neither. */
  value(name: string, parameter: Parameter): FormulaNode | undefined {
    if (parameter.kind === "number") return this.number(name, parameter);
    return parameter.kind === "choice" ? this.choice(name, parameter) : undefined;
  }
}

/** So many that tables go by the place of a word. */
export const hasManyWords = ({ values }: Choice): boolean => values.length > 6;

/** Whether a word is one of some others, whatever the case. */
export function isOneOf(word: FormulaNode, words: readonly string[]): FormulaNode {
  return anyOf(...words.map((one) => binaryNode("=", word, textNode(one))));
}
