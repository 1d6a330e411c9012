import { numberOf, productOf, sumOf, type Expression, type Factor, type Term } from "./tree.ts";

const token = /\s*(?:(\d+(?:\.\d*)?(?:e[+-]?\d+)?|\.\d+)|([A-Za-z_]\w*)|"([^"]*)"|(<=|>=|==|!=|[-+*/^(),?:<>]))/y;

interface Token {
  readonly kind: "number" | "name" | "text" | "sign";
  readonly text: string;
}

function tokensOf(equation: string): readonly Token[] {
  const out: Token[] = [];
  token.lastIndex = 0;
  const end = equation.trimEnd().length;
  while (token.lastIndex < end) {
    const from = token.lastIndex;
    const found = token.exec(equation);
    if (!found) throw new Error(`cannot be read at ${from}: ${equation}`);
    const [, number, name, text, sign] = found;
    if (number !== undefined) out.push({ kind: "number", text: number });
    else if (name !== undefined) out.push({ kind: "name", text: name });
    else if (text !== undefined) out.push({ kind: "text", text });
    else out.push({ kind: "sign", text: sign! });
  }
  return out;
}

/** Reads the equations of the library: numbers, names, + − · / ^, comparisons, cases and functions. */
class Reading {
  #at = 0;
  constructor(private readonly tokens: readonly Token[]) {}

  whole(): Expression {
    const read = this.#case();
    if (this.#at < this.tokens.length) throw new Error(`more than an equation: ${this.tokens[this.#at]!.text}`);
    return read;
  }

  #is(...signs: readonly string[]): string | undefined {
    const next = this.tokens[this.#at];
    if (next?.kind !== "sign" || !signs.includes(next.text)) return undefined;
    this.#at++;
    return next.text;
  }

  #must(sign: string): void {
    if (this.#is(sign) === undefined) throw new Error(`“${sign}” is missing`);
  }

  #case(): Expression {
    const when = this.#compared();
    if (this.#is("?") === undefined) return when;
    const then = this.#case();
    this.#must(":");
    return { kind: "case", when, then, otherwise: this.#case() };
  }

  #compared(): Expression {
    const a = this.#sum();
    const by = this.#is("<=", ">=", "==", "!=", "<", ">");
    return by === undefined ? a : { kind: "compared", by, a, b: this.#sum() };
  }

  #sum(): Expression {
    const terms: Term[] = [];
    let sign = this.#is("+", "-") ?? "+";
    for (let next: string | undefined = sign; next !== undefined; next = this.#is("+", "-")) {
      sign = next;
      terms.push({ minus: sign === "-", of: this.#product() });
    }
    return sumOf(terms);
  }

  #product(): Expression {
    const factors: Factor[] = [{ under: false, of: this.#signed() }];
    for (let sign = this.#is("*", "/"); sign !== undefined; sign = this.#is("*", "/"))
      factors.push({ under: sign === "/", of: this.#signed() });
    return productOf(factors);
  }

  #signed(): Expression {
    if (this.#is("-") !== undefined) return { kind: "sum", terms: [{ minus: true, of: this.#signed() }] };
    return this.#power();
  }

  #power(): Expression {
    const base = this.#single();
    return this.#is("^") === undefined ? base : { kind: "power", base, exponent: this.#signed() };
  }

  #single(): Expression {
    const next = this.tokens[this.#at++];
    if (next?.kind === "number") return numberOf(Number(next.text));
    if (next?.kind === "text") return { kind: "text", text: next.text };
    if (next?.kind === "name") {
      if (this.#is("(") === undefined)
        return next.text === "pi" ? numberOf(Math.PI) : { kind: "name", name: next.text };
      const given: Expression[] = [];
      if (this.#is(")") !== undefined) return { kind: "call", name: next.text, given };
      do given.push(this.#case());
      while (this.#is(",") !== undefined);
      this.#must(")");
      return { kind: "call", name: next.text, given };
    }
    if (next?.text !== "(") throw new Error(`“${next?.text ?? "the end"}” where a value should stand`);
    const inside = this.#case();
    this.#must(")");
    return inside;
  }
}

export const parseEquation = (equation: string): Expression => new Reading(tokensOf(equation)).whole();
