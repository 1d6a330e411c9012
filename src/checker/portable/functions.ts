import {
  callNode,
  joined,
  lambdaNode,
  letNode,
  nameNode,
  textNode,
  writeNode,
  binaryNode,
  numberNode,
  allOf,
  anyOf,
  type FormulaNode,
} from "../../cells/index.ts";
import { allowedText, everydayText, formulas, nameOf, q, type Quantity } from "../../core/index.ts";
import type { PlannedFunction } from "../../sheet/index.ts";
import { hintNode } from "./checks.ts";
import type { EquationReader } from "./equation.ts";
import { fits } from "./fitting.ts";
import { definedName } from "./names.ts";
import { sentence, unitText } from "./texts.ts";
import { translated, type Untranslated } from "./translate.ts";
import { helpers, withHelpers, type PortableFunction } from "./writing.ts";

const quantities: Readonly<Record<string, Quantity>> = q;

/** What should be known about one input cell, as `KERN.INPUT_WARNINGS` says it of its quantity. */
function inputWarnings(key: string): PortableFunction | undefined {
  const quantity = quantities[key];
  if (!quantity) return undefined;
  const cell = nameNode("entry_v");
  const { min, max, above, below, valid, typical, smallest } = quantity;
  const n = numberNode;
  const inside = [
    callNode("ISNUMBER", cell),
    ...(min === undefined ? [] : [binaryNode(">=", cell, n(min))]),
    ...(above === undefined ? [] : [binaryNode(">", cell, n(above))]),
    ...(max === undefined ? [] : [binaryNode("<=", cell, n(max))]),
    ...(below === undefined ? [] : [binaryNode("<", cell, n(below))]),
  ];
  const shown = nameNode("shown_t");
  const begins = sentence(`${nameOf(quantity)} = `, shown, unitText(quantity));
  const beyond = (low: number, high: number): FormulaNode =>
    anyOf(binaryNode("<", cell, n(low)), binaryNode(">", cell, n(high)));
  const none = textNode("");
  const source = valid
    ? callNode(
        "IF",
        beyond(...valid.range),
        joined(
          begins,
          textNode(
            ` is outside the range of ${valid.where}, ` +
              allowedText({ unit: quantity.unit, min: valid.range[0], max: valid.range[1] }),
          ),
        ),
        none,
      )
    : none;
  const size = callNode("ABS", cell);
  const unusual = typical
    ? callNode(
        "OR",
        beyond(...typical),
        ...(smallest === undefined
          ? []
          : [allOf(binaryNode("<", size, n(smallest)), binaryNode(">", size, n(smallest * 1e-7)))]),
      )
    : nameNode("FALSE");
  const everyday = callNode(
    "IF",
    unusual,
    joined(begins, textNode(` is outside the everyday range ${everydayText(quantity)}`), hintNode(quantity, cell)),
    none,
  );
  const both = [nameNode("source_t"), nameNode("everyday_t")] as const;
  const apart = callNode("IF", callNode("OR", ...both.map((one) => binaryNode("=", one, none))), none, textNode("; "));
  const body = callNode(
    "IF",
    callNode("AND", ...inside),
    letNode(
      [
        ["shown_t", withHelpers.shown(cell)],
        ["source_t", source],
        ["everyday_t", everyday],
      ],
      joined(both[0], apart, both[1]),
    ),
    none,
  );
  return {
    id: "INPUT_WARNINGS",
    name: definedName(`INPUT_WARNINGS_${key.replace(/([A-Z])/g, "_$1").toUpperCase()}`),
    params: ["entry_v"],
    body,
  };
}

const asPlanned = ({ name, params, body }: PortableFunction): PlannedFunction => ({
  name,
  formula: writeNode(lambdaNode(params, body)),
});

/** Says of a call in a cell why it is refused; nothing where it is not. */
const messageHelper: PortableFunction = {
  id: "MESSAGE",
  name: definedName("MESSAGE"),
  params: ["where_t", "given_v"],
  body: callNode(
    "IF",
    callNode("ISTEXT", nameNode("given_v")),
    joined(nameNode("where_t"), textNode(": "), nameNode("given_v"), textNode("  ")),
    textNode(""),
  ),
};

/** What a verdict says that can no longer be told here. */
export const outOfDate = "OUT OF DATE";

/** A verdict, but for OK where inputs are others of which only the original can warn. */
const verdictHelper: PortableFunction = {
  id: "VERDICT",
  name: definedName("VERDICT"),
  params: ["verdict_t", "changed_n"],
  body: callNode(
    "IF",
    callNode(
      "AND",
      binaryNode(">", nameNode("changed_n"), numberNode(0)),
      binaryNode("=", nameNode("verdict_t"), textNode("OK")),
    ),
    textNode(outOfDate),
    nameNode("verdict_t"),
  ),
};

const ownIds: ReadonlySet<string> = new Set([messageHelper.id, verdictHelper.id]);

/** The functions that a copy calls, translated when they are first asked for. */
export class PortableFunctions {
  readonly #known = new Map<string, PortableFunction | Untranslated>();
  readonly #used = new Map<string, PortableFunction>();

  constructor(private readonly reader: EquationReader) {}

  /** A function by its id; why it stays a value where it does. */
  of(id: string): PortableFunction | Untranslated {
    const known = this.#known.get(id);
    if (known) return known;
    const f = formulas.find((one) => one.id === id);
    const made = f
      ? translated(f, this.reader, withHelpers)
      : { id, why: "a function of several cells or of the workbook" };
    const takes = "why" in made || fits(asPlanned(made).formula);
    const kept = takes ? made : { id, why: "longer than programs take a formula" };
    this.#known.set(id, kept);
    return kept;
  }

  inputWarnings(key: string): PortableFunction | undefined {
    const known = this.#known.get(`INPUT_WARNINGS ${key}`);
    if (known && !("why" in known)) return known;
    const made = inputWarnings(key);
    if (made) this.#known.set(`INPUT_WARNINGS ${key}`, made);
    return made;
  }

  /** A call, whose function goes with the copy. */
  call(f: PortableFunction, given: readonly FormulaNode[]): FormulaNode {
    this.#used.set(f.name, f);
    return callNode(f.name, ...given);
  }

  message(where: string, given: FormulaNode): FormulaNode {
    return this.call(messageHelper, [textNode(where), given]);
  }

  /** What a verdict gives, with how many inputs are others of which only the original can warn; without `=`. */
  verdict(own: string, changed: string): string {
    this.#used.set(verdictHelper.name, verdictHelper);
    return `${verdictHelper.name}(${own},${changed})`;
  }

  /** Ids of the functions that compute on the copy. */
  ids(): readonly string[] {
    return [...new Set([...this.#used.values()].map(({ id }) => id))].filter((id) => !ownIds.has(id)).sort();
  }

  /** What the workbook has to define, helpers first. */
  planned(): readonly PlannedFunction[] {
    if (this.#used.size === 0) return [];
    return [...helpers, ...this.#used.values()].map(asPlanned);
  }
}
