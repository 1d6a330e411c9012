import { reasonOf } from "../../core/index.ts";
import { parseFormula } from "../language/parse.ts";
import { withPrefix } from "../language/pieces.ts";
import type { CallNode, FormulaNode, LambdaNode, LetNode, OperatorNode, ReferenceNode } from "../language/tree.ts";
import type { Node } from "../values/frame.ts";
import { Ref } from "../values/frame.ts";
import { nativeFunction, ownFunction, type OwnFunctions } from "../functions/index.ts";
import { binary, inFifteenDigits, unary } from "../values/operators.ts";
import { toFifteenDigits } from "../values/rounding.ts";
import {
  addressReference,
  nameReference,
  referenceNode,
  spanOf,
  spanReference,
  type StaticReference,
} from "./references.ts";
import { broadcast, cannot, Fault, Rows, wrongValue, type Scalar } from "../values/values.ts";

/** A formula read once for all cells that share its pattern. */
export interface Compiled {
  readonly run: Node;
  /** Everything it can read, whichever way its conditions go. */
  readonly references: readonly StaticReference[];
  /** Why more may be read than the references say. */
  readonly unfollowable?: string;
  /** Whether its value can fill several cells. */
  readonly fills: boolean;
  /** How many values LET names in it. */
  readonly locals: number;
}

/** A part of a formula: how to evaluate it, whether it can be several cells, and the cells it stands for where that is sure. */
interface Part {
  readonly run: Node;
  readonly fills: boolean;
  readonly reference?: StaticReference;
}

type Scope = ReadonlyMap<string, { readonly slot: number; readonly fills: boolean }>;

class Compiler {
  readonly references: StaticReference[] = [];
  unfollowable: string | undefined;
  locals = 0;
  constructor(
    private readonly row: number,
    private readonly column: number,
    private readonly functions: OwnFunctions,
  ) {}

  part(tree: FormulaNode | null, scope: Scope): Part {
    if (!tree) return { run: () => null, fills: false };
    switch (tree.type) {
      case "Literal":
        return this.constant(tree.value);
      case "ErrorLiteral":
        return this.constant(new Fault(tree.value));
      case "ReferenceIdentifier":
        return this.reference(tree, scope);
      case "UnaryExpression":
        return this.unary(tree, scope);
      case "BinaryExpression":
        return this.binary(tree, scope);
      case "ArrayExpression":
        return this.array(tree.elements, scope);
      case "CallExpression":
        return this.call(tree, scope);
      case "LetExpression":
        return this.let(tree, scope);
      case "TemplateReference":
        return this.cannotFollow(`the reference ${tree.text}`);
      case "Identifier":
      case "LambdaExpression":
        return this.cannotFollow("LAMBDA");
    }
  }

  private constant(value: Scalar): Part {
    return { run: () => value, fills: false };
  }

  private cannotFollow(what: string): Part {
    this.unfollowable ??= what;
    return { run: () => cannot(`${what}, which cannot be followed`), fills: false };
  }

  private reference({ value: text, kind }: ReferenceNode, scope: Scope): Part {
    if (kind === "table") return this.cannotFollow(`the table reference ${text}`);
    const local = kind === "name" ? scope.get(text.toUpperCase()) : undefined;
    if (local) return { run: ({ locals }) => locals[local.slot]!, fills: local.fills };
    const reference = kind === "name" ? nameReference(text) : addressReference(text, this.row, this.column);
    this.references.push(reference);
    return { run: referenceNode(reference), reference, fills: kind !== "range" || text.includes(":") };
  }

  private unary({ operator, arguments: [inner] }: OperatorNode, scope: Scope): Part {
    if (operator === "#") return this.cannotFollow("a reference to a spilled block");
    const part = this.part(inner ?? null, scope);
    if (operator === "@") return this.intersecting(part);
    const f = unary[operator];
    if (!f) return this.cannotFollow(`the operator ${operator}`);
    return { run: (frame) => broadcast([part.run(frame)], f), fills: part.fills };
  }

  /** `@`: of a range the cell in the formula's own row or column. */
  private intersecting({ run }: Part): Part {
    return {
      fills: false,
      run: (frame) => {
        const value = run(frame);
        if (!(value instanceof Ref)) return value instanceof Rows ? value.at(0, 0) : value;
        const { area } = value;
        const row = area.rows === 1 ? 0 : frame.row - area.row;
        const column = area.columns === 1 ? 0 : frame.column - area.column;
        return row >= 0 && row < area.rows && column >= 0 && column < area.columns ? value.at(row, column) : wrongValue;
      },
    };
  }

  private binary({ operator, arguments: [first, second] }: OperatorNode, scope: Scope): Part {
    const before = this.references.length;
    const a = this.part(first ?? null, scope);
    const b = this.part(second ?? null, scope);
    if (operator === ":") return this.span(a, b, before);
    const f = binary[operator];
    if (!f)
      return this.cannotFollow(
        operator === ","
          ? "a union of references"
          : operator === " "
            ? "an intersection of references"
            : `the operator ${operator}`,
      );
    const short = inFifteenDigits(f);
    return {
      run: (frame) => broadcast([a.run(frame), b.run(frame)], frame.fifteenDigits ? short : f),
      fills: a.fills || b.fills,
    };
  }

  /** A range whose corners are computed: it lies within the block around all that either corner refers to. */
  private span(a: Part, b: Part, before: number): Part {
    const all = this.references.slice(before);
    if (all.length === 0) return this.cannotFollow("a range without addresses");
    this.references.push(all.reduce(spanReference));
    return {
      fills: true,
      run: (frame) => {
        const [first, second] = [a.run(frame), b.run(frame)];
        if (first instanceof Fault) return first;
        if (second instanceof Fault) return second;
        const area = first instanceof Ref && second instanceof Ref ? spanOf(first.area, second.area) : undefined;
        return area ? new Ref(frame.reader, area) : cannot("a range between values that are no references");
      },
    };
  }

  private array(elements: readonly (readonly FormulaNode[])[], scope: Scope): Part {
    const rows = elements.map((row) => row.map((element) => this.part(element, scope).run));
    return { run: (frame) => new Rows(rows.map((row) => row.map((run) => run(frame) as Scalar))), fills: true };
  }

  private call({ callee, arguments: given }: CallNode, scope: Scope): Part {
    const { name } = callee;
    if (callee.type === "LambdaExpression") return this.lambda(callee, given, scope);
    if (name === undefined) return this.cannotFollow("LAMBDA");
    const parts = given.map((argument) => this.part(argument, scope));
    const nodes = parts.map(({ run }) => run);
    const own = ownFunction(this.functions, name);
    if (own) return { run: (frame) => own.run(nodes, frame), fills: own.fills };
    const native = nativeFunction(name);
    if (!native) return { run: () => cannot(`function ${name.toUpperCase()}`), fills: true };
    if (native.unfollowable) return this.cannotFollow(native.unfollowable);
    if (nodes.length < native.min || nodes.length > native.max)
      return { run: () => cannot(`function ${name.toUpperCase()} with ${nodes.length} arguments`), fills: false };
    return {
      run: (frame) => (frame.fifteenDigits ? toFifteenDigits(native.run(nodes, frame)) : native.run(nodes, frame)),
      fills: native.fills === "always" || (native.fills === "with" && parts.some(({ fills }) => fills)),
    };
  }

  /** `LAMBDA(x,…)(…)`: its arguments under its names; none of them sees the others. */
  private lambda({ params, body }: LambdaNode, given: CallNode["arguments"], scope: Scope): Part {
    if (given.length !== params.length) return { run: () => wrongValue, fills: false };
    return this.binding(
      params.map(({ name }, i) => [name, given[i] ?? null]),
      body,
      scope,
      () => scope,
    );
  }

  /** Each name sees those before it. */
  private let({ declarations, body }: LetNode, scope: Scope): Part {
    return this.binding(
      declarations.map(({ id, init }) => [id.name, init]),
      body,
      scope,
      (inside) => inside,
    );
  }

  /** A body under names; `seen`: the scope in which what a name stands for is read. */
  private binding(
    names: readonly (readonly [name: string, node: CallNode["arguments"][number]])[],
    body: LetNode["body"],
    scope: Scope,
    seen: (inside: Scope) => Scope,
  ): Part {
    const inside = new Map(scope);
    const steps = names.map(([name, node]) => {
      const part = this.part(node, seen(inside));
      const slot = this.locals++;
      inside.set(name.toUpperCase(), { slot, fills: part.fills });
      return { slot, run: part.run };
    });
    const result = this.part(body, inside);
    return {
      fills: result.fills,
      run: (frame) => {
        for (const { slot, run } of steps) frame.locals[slot] = run(frame);
        return result.run(frame);
      },
    };
  }
}

/** Reads a formula (with or without `=`) that stands in a cell. Whatever cannot be read or followed says so when it is evaluated. */
export function compile(formula: string, row: number, column: number, functions: OwnFunctions): Compiled {
  let tree: FormulaNode;
  try {
    tree = parseFormula(withPrefix(formula));
  } catch (error) {
    const why = `the formula, which cannot be read (${reasonOf(error)})`;
    return { run: () => cannot(why), references: [], unfollowable: why, fills: false, locals: 0 };
  }
  return compileTree(tree, row, column, functions);
}

/** The same of a formula that has been read already. */
export function compileTree(tree: FormulaNode, row: number, column: number, functions: OwnFunctions): Compiled {
  const compiler = new Compiler(row, column, functions);
  const { run, fills } = compiler.part(tree, new Map());
  return {
    run,
    references: compiler.references,
    ...(compiler.unfollowable !== undefined && { unfollowable: compiler.unfollowable }),
    fills,
    locals: compiler.locals,
  };
}

/** A LAMBDA ready to be evaluated, its arguments in the first of the places for what is named. It refers to no cells. */
export function compileLambda(
  { params, body }: LambdaNode,
  functions: OwnFunctions,
): Pick<Compiled, "run" | "locals" | "unfollowable"> {
  const compiler = new Compiler(0, 0, functions);
  const scope = new Map(params.map(({ name }) => [name.toUpperCase(), { slot: compiler.locals++, fills: false }]));
  const { run } = compiler.part(body, scope);
  const unfollowable =
    compiler.unfollowable ?? (compiler.references.length > 0 ? "cells in the definition of a function" : undefined);
  return { run, locals: compiler.locals, ...(unfollowable !== undefined && { unfollowable }) };
}
