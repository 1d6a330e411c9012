import {
  allOf,
  binaryNode,
  callNode,
  lambdaNode,
  letNode,
  nameNode,
  numberNode,
  rowNode,
  textNode,
  writeNode,
  type FormulaNode,
} from "../../cells/index.ts";
import {
  allowedText,
  format,
  inForce,
  nameOf,
  readFactor,
  type Choice,
  type Formula,
  type Parameter,
  type Quantity,
  type Step,
} from "../../core/index.ts";
import { checkedNode, parameterCheck, shownAt, unusedCheck, type Check, type SaidCheck } from "./checks.ts";
import { equationNode, NotExpressible, type EquationReader } from "./equation.ts";
import { limitEquations, reasonOfLimit, refusalEquations, type LimitEquation } from "./limits.ts";
import { definedName, LocalNames } from "./names.ts";
import { hasManyWords, isBlankNode, isOneOf, onlyWhere, Reading, scaled } from "./reading.ts";
import { sentence, unitText } from "./texts.ts";
import type { PortableFunction, Writing } from "./writing.ts";

/** `LAMBDA(…)`, as a name of the workbook holds it. */
export const lambdaText = ({ params, body }: PortableFunction): string => writeNode(lambdaNode(params, body));

type Lookup = Extract<Step, { lookup: unknown }>["lookup"];

/** One of the formulas that a function may be: itself, or that of a choice. */
interface Variant {
  readonly of: Formula;
  readonly choice?: string;
}

const variantsIn = (f: Formula): readonly Variant[] =>
  f.variants ? Object.entries(f.variants.as).map(([choice, of]) => ({ of, choice })) : [{ of: f }];

/** A value read between the points of a table; beyond its ends the end value holds. */
function betweenPoints(points: readonly (readonly [number, number])[], of: FormulaNode): FormulaNode {
  const x = nameNode("at_x");
  const last = points.at(-1)!;
  const pieces = points.slice(1).map(([x1, y1], i): readonly [number, FormulaNode] => {
    const [x0, y0] = points[i]!;
    if (y1 === y0) return [x1, numberNode(y0)];
    const share = binaryNode("/", binaryNode("-", x, numberNode(x0)), numberNode(x1 - x0));
    const rise = binaryNode("*", numberNode(Math.abs(y1 - y0)), share);
    return [x1, binaryNode(y1 > y0 ? "+" : "-", numberNode(y0), rise)];
  });
  const between = pieces.reduceRight<FormulaNode>(
    (rest, [to, value]) => callNode("IF", binaryNode("<=", x, numberNode(to)), value, rest),
    numberNode(last[1]),
  );
  const first = callNode("IF", binaryNode("<=", x, numberNode(points[0]![0])), numberNode(points[0]![1]), between);
  return letNode([["at_x", of]], first);
}

/** A value of a table by the word of a choice, in the order of the words; one for all of them where they are the same. */
function byWord(values: Readonly<Record<string, number>>, choice: Choice, name: string, reading: Reading): FormulaNode {
  const ordered = choice.values.map(({ value }) => [String(value), values[String(value)]] as const);
  const known = ordered.filter((entry): entry is readonly [string, number] => entry[1] !== undefined);
  if (known.every(([, value]) => value === known[0]![1])) return numberNode(known[0]![1]);
  if (hasManyWords(choice))
    return callNode("INDEX", rowNode(ordered.map(([, value]) => numberNode(value ?? 0))), reading.place(name, choice));
  return callNode(
    "SWITCH",
    reading.choice(name, choice),
    ...known.flatMap(([word, value]) => [textNode(word), numberNode(value)]),
  );
}

class Translator {
  readonly names = new LocalNames();
  readonly reading: Reading;
  readonly params: readonly string[];

  constructor(
    readonly f: Formula,
    readonly reader: EquationReader,
    readonly writing: Writing,
  ) {
    this.params = Object.keys(f.params).map((name) => this.names.of(name));
    this.reading = new Reading(this.names);
  }

  /** The word of the choice that decides about a parameter. */
  private word(argument: string): FormulaNode {
    const deciding = this.f.params[argument];
    if (deciding?.kind !== "choice") throw new NotExpressible(`${argument}, which decides and is no choice`);
    return this.reading.choice(argument, deciding);
  }

  private isOne(argument: string, words: readonly string[]): FormulaNode {
    return isOneOf(this.word(argument), words);
  }

  /** What a parameter is for each group of values of the choice that decides; one group without a condition where none does. */
  private forces(
    declared: Parameter,
  ): readonly { readonly argument?: string; readonly words: readonly string[]; readonly is: Parameter | undefined }[] {
    const argument = declared.varies?.argument ?? ("follows" in declared ? declared.follows?.argument : undefined);
    if (argument === undefined) return [{ words: [], is: declared }];
    const deciding = this.f.params[argument];
    if (deciding?.kind !== "choice") throw new NotExpressible(`${argument}, which decides and is no choice`);
    const groups: { argument: string; words: string[]; is: Parameter | undefined }[] = [];
    for (const { value } of deciding.values) {
      const word = String(value);
      const unused = declared.varies !== undefined && !declared.varies.as[word];
      const is = unused ? undefined : inForce(declared, { [argument]: value });
      const same = groups.find((group) => JSON.stringify(group.is) === JSON.stringify(is));
      if (same) same.words.push(word);
      else groups.push({ argument, words: [word], is });
    }
    return groups;
  }

  /** What is refused before anything is computed, in the order of the core: first what stands by itself. */
  private readingChecks(): readonly Check[] {
    const all = Object.entries(this.f.params).map(([name, declared]) => ({
      name,
      declared,
      groups: this.forces(declared),
    }));
    const waits = ({ groups }: (typeof all)[number]): boolean => groups[0]!.argument !== undefined;
    return [...all.filter((one) => !waits(one)), ...all.filter(waits)].flatMap(({ name, declared, groups }) =>
      groups.flatMap(({ argument, words, is }): readonly Check[] => {
        if (is?.kind === "table" || is?.kind === "text") throw new NotExpressible(`the ${is.kind} ${name}`);
        const where = argument === undefined || groups.length === 1 ? undefined : this.isOne(argument, words);
        if (is) {
          const check = parameterCheck(name, is, this.reading, this.writing);
          return check ? [{ ...check, ...(where && { where }) }] : [];
        }
        if (declared.varies!.ignored !== undefined) return [];
        const word = words.length === 1 ? textNode(words[0]!) : callNode("UPPER", this.word(argument!));
        if (words.length > 1 && words.some((one) => one !== one.toUpperCase()))
          throw new NotExpressible(`${argument!}, whose words are not all in capitals`);
        const choice = sentence(`${argument!} `, word);
        return [{ ...unusedCheck(name, declared, choice, this.reading, this.writing), ...(where && { where }) }];
      }),
    );
  }

  /** An argument as the equations of a variant read it. */
  private argument(variant: Variant, name: string): FormulaNode {
    const groups = this.forces(this.f.params[name]!).filter(({ argument, words, is }) => {
      if (!is) return false;
      return variant.choice === undefined || argument !== this.f.variants!.argument || words.includes(variant.choice);
    });
    if (groups.length === 0) return this.reading.cell(name);
    const read = groups.map(({ argument, words, is }) => ({ argument, words, node: this.reading.value(name, is!)! }));
    const first = read[0]!;
    if (read.every(({ node }) => writeNode(node) === writeNode(first.node))) return first.node;
    return read
      .slice(1)
      .reduce<FormulaNode>(
        (rest, { argument, words, node }) => callNode("IF", this.isOne(argument!, words), node, rest),
        first.node,
      );
  }

  /** What equations of a variant name: its parameters, and the steps named so far. */
  private symbols(variant: Variant, steps: ReadonlyMap<string, FormulaNode>): (name: string) => FormulaNode {
    return (name) => {
      const step = steps.get(name);
      if (step) return step;
      if (name in this.f.params) return this.argument(variant, name);
      // The entry itself, whether or not it is a number.
      const entry = name.endsWith("_cell") ? name.slice(0, -"_cell".length) : "";
      if (entry in this.f.params) return this.reading.cell(entry);
      throw new NotExpressible(`“${name}”, which is no argument and no step before`);
    };
  }

  private equation(equation: string, symbols: (name: string) => FormulaNode): FormulaNode {
    return equationNode(this.reader, equation, symbols);
  }

  /** A value of a table. */
  private table(lookup: Lookup, symbols: (name: string) => FormulaNode): FormulaNode {
    if ("points" in lookup) return betweenPoints(lookup.points, symbols(lookup.of));
    const choice = this.f.params[lookup.of];
    if (choice?.kind !== "choice") throw new NotExpressible(`a table by ${lookup.of}, which is no choice`);
    return byWord(lookup.values, choice, lookup.of, this.reading);
  }

  /** The steps of a variant under names of their own. */
  private steps(variant: Variant): {
    readonly named: readonly (readonly [string, FormulaNode])[];
    readonly nodes: ReadonlyMap<string, FormulaNode>;
  } {
    const nodes = new Map<string, FormulaNode>();
    const named: (readonly [string, FormulaNode])[] = [];
    for (const [name, step] of Object.entries(variant.of.steps)) {
      const symbols = this.symbols(variant, nodes);
      if (!("equation" in step) && !("lookup" in step))
        throw new NotExpressible(`“${step.governing}”, which sums, searches or integrates`);
      const node = "equation" in step ? this.equation(step.equation, symbols) : this.table(step.lookup, symbols);
      // A step may be called as an argument is, or as a step of another variant.
      const own = this.names.of(name in this.f.params ? `${name}_step` : name);
      named.push([own, node]);
      nodes.set(name, nameNode(own));
    }
    return { named, nodes };
  }

  /** The steps that limits may name: those read from a table by a choice. */
  private tables(variant: Variant): ReadonlyMap<string, FormulaNode> {
    const nodes = new Map<string, FormulaNode>();
    for (const [name, step] of Object.entries(variant.of.steps))
      if ("lookup" in step && "values" in step.lookup && step.lookup.of in this.f.params)
        nodes.set(
          name,
          this.table(step.lookup, (of) => this.argument(variant, of)),
        );
    return nodes;
  }

  /** What the other arguments forbid: what several variants have in common once. */
  private limitChecks(): readonly Check[] {
    const variants = variantsIn(this.f);
    const groups = new Map<string, { readonly checks: readonly SaidCheck[]; readonly words: string[] }>();
    for (const variant of variants) {
      const limits = limitEquations(variant.of, variant.choice);
      if (!limits) throw new NotExpressible("bounds that follow from other arguments, of which no equation is given");
      const symbols = this.symbols(variant, this.tables(variant));
      const checks = limits.flatMap((limit) => this.limitCheck(variant, limit, symbols));
      const key = checks.map(({ fails, says }) => `${writeNode(fails)} ${writeNode(says)}`).join("\n");
      const known = groups.get(key);
      if (known) known.words.push(variant.choice!);
      else groups.set(key, { checks, words: variant.choice === undefined ? [] : [variant.choice] });
    }
    return [...groups.values()].flatMap(({ checks, words }) => {
      const where =
        words.length === 0 || words.length === variants.length
          ? undefined
          : this.isOne(this.f.variants!.argument, words);
      return checks.map((check) => ({ ...check, ...(where && { where }) }));
    });
  }

  private limitCheck(
    variant: Variant,
    { of, min, max, where }: LimitEquation,
    symbols: (name: string) => FormulaNode,
  ): readonly SaidCheck[] {
    const group = this.forces(this.f.params[of]!).find(
      ({ words, is }) =>
        is !== undefined && (variant.choice === undefined || words.length === 0 || words.includes(variant.choice)),
    );
    const q = group!.is as Quantity;
    const factor = readFactor(q);
    const because = reasonOfLimit(variant.of, of);
    const value = symbols(of);
    const unit = unitText(q);
    const bound = (equation: string | undefined) =>
      equation === undefined
        ? undefined
        : { node: this.equation(equation, symbols), shown: scaled(this.equation(equation, symbols), 1 / factor) };
    const [low, high] = [bound(min), bound(max)];
    // The text of what is allowed names either bound, typed or computed: it is split where a computed one stands.
    const allowed = (lowAt: FormulaNode | undefined, highAt: FormulaNode | undefined): FormulaNode => {
      const [lowest, highest] = [1.2345, 6.789];
      const text = allowedText({
        unit: q.unit,
        ...(low
          ? { min: lowest }
          : { ...(q.min !== undefined && { min: q.min }), ...(q.above !== undefined && { above: q.above }) }),
        ...(high ? { max: highest } : q.max !== undefined && q.because === undefined && { max: q.max }),
      });
      const parts: (string | FormulaNode)[] = [text];
      const put = (mark: number, node: FormulaNode | undefined): void => {
        if (!node) return;
        const at = parts.findIndex((part) => typeof part === "string" && part.includes(format(mark)));
        const [before, after] = (parts[at] as string).split(format(mark)) as [string, string];
        parts.splice(at, 1, before, node, after);
      };
      put(lowest, lowAt);
      put(highest, highAt);
      return sentence(...parts);
    };
    const cell = this.reading.cell(of);
    const given = q.default === undefined ? cell : callNode("IF", isBlankNode(cell), numberNode(q.default), cell);
    const shows = [given, ...(low ? [low.shown] : []), ...(high ? [high.shown] : [])];
    const [lowAt, highAt] = [low && shownAt(1), high && shownAt(low ? 2 : 1)];
    const check = (side: "below" | "above", passed: FormulaNode, at: FormulaNode): SaidCheck => ({
      // Nothing is compared that is not there.
      fails: onlyWhere(
        allOf(...(where === undefined ? [] : [this.equation(where, symbols)]), callNode("ISNUMBER", given)),
        passed,
      ),
      shows,
      computes: true,
      says: sentence(
        `${nameOf(q)} = `,
        shownAt(0),
        `${unit} is ${side} `,
        at,
        `${unit}, ${because}; allowed: `,
        allowed(lowAt, highAt),
      ),
    });
    return [
      ...(low ? [check("below", binaryNode("<", value, low.node), lowAt!)] : []),
      ...(high ? [check("above", binaryNode(">", value, high.node), highAt!)] : []),
    ];
  }

  /** What a variant gives: its last step in the unit of the cell, or why there is none. */
  result(variant: Variant): FormulaNode {
    const { named, nodes } = this.steps(variant);
    const symbols = this.symbols(variant, nodes);
    const last = nameNode(named.at(-1)![0]);
    const value = scaled(last, 1 / readFactor(variant.of.result));
    const none = textNode(`${variant.of.id} has no finite result for these arguments`);
    const given = callNode("IF", callNode("ISNUMBER", last), value, none);
    const refused = refusalEquations(variant.of, variant.choice).reduceRight<FormulaNode>(
      (rest, { where, says, about }) => {
        const words = says.map((part) =>
          typeof part === "string" ? part : this.writing.shown(this.equation(part.shown, symbols)),
        );
        const prefix = about === undefined ? "" : `${nameOf(this.f.params[about]!)}: `;
        return callNode("IF", this.equation(where, symbols), sentence(prefix, ...words), rest);
      },
      given,
    );
    return letNode(named, refused);
  }

  function(): PortableFunction {
    const variants = variantsIn(this.f);
    const checks = [...this.readingChecks(), ...this.limitChecks()];
    const results = variants.map((variant) => ({ choice: variant.choice, node: this.result(variant) }));
    const groups = new Map<string, { words: string[]; node: FormulaNode }>();
    for (const { choice, node } of results) {
      const text = writeNode(node);
      const known = groups.get(text) ?? { words: [], node };
      groups.set(text, { ...known, words: [...known.words, ...(choice === undefined ? [] : [choice])] });
    }
    const [first, ...others] = [...groups.values()];
    const result = others.reduceRight<FormulaNode>(
      (rest, { words, node }) => callNode("IF", this.isOne(this.f.variants!.argument, words), node, rest),
      first!.node,
    );
    const body = letNode(this.reading.named, checkedNode(checks, result, this.writing));
    return { id: this.f.id, name: definedName(this.f.id), params: this.params, body };
  }
}

/** Why a function stays a value. */
export interface Untranslated {
  readonly id: string;
  readonly why: string;
}

/** A function of the declaration's equations and tables in the language of cells. */
export function translated(f: Formula, reader: EquationReader, writing: Writing): PortableFunction | Untranslated {
  try {
    return new Translator(f, reader, writing).function();
  } catch (error) {
    if (error instanceof NotExpressible) return { id: f.id, why: error.message };
    throw error;
  }
}
