import type { MathJsInstance, MathNode } from "mathjs";
import { equationFor, type Formula } from "../core/index.ts";
import { hasSymbol, symbolTex } from "./symbols.ts";

/** The part of mathjs that reads expressions. */
export type Parser = Pick<MathJsInstance, "parse">;

/** The TeX of each parameter and step by its name in the equations. */
function symbolsOf(f: Formula): ReadonlyMap<string, string> {
  const out = new Map<string, string>();
  for (const [name, { symbol }] of [...Object.entries(f.params), ...Object.entries(f.steps)])
    out.set(name, hasSymbol(symbol) ? symbolTex(symbol) : `\\mathrm{${name.replace(/_/g, "\\_")}}`);
  return out;
}

/** A number as TeX: six significant digits; bracketed where a sign or a power of ten could be misread. */
export function numberTex(value: number, bracketed = false): string {
  const [mantissa = "", exponent] = String(Number(value.toPrecision(6))).split("e");
  const power = exponent === undefined ? mantissa : `${mantissa}\\times 10^{${Number(exponent)}}`;
  return bracketed && (value < 0 || exponent !== undefined) ? `\\left(${power}\\right)` : power;
}

function toTex(math: Parser, expression: string, symbol: (name: string) => string): string {
  const handler = (node: MathNode): string | undefined => {
    const { type } = node as { type: string };
    // In braces, since mathjs sets what follows `\cdot` without a space.
    if (type === "SymbolNode") return `{${symbol((node as unknown as { name: string }).name)}}`;
    if (type === "ConstantNode") {
      const { value } = node as unknown as { value: unknown };
      return typeof value === "number" ? numberTex(value) : `\\text{${String(value)}}`;
    }
    return undefined;
  };
  // Between two numbers a comma alone would be read as a part of one number.
  return math
    .parse(expression)
    .toTex({ parenthesis: "auto", handler: handler as never })
    .replace(/(\d),(?=\d)/g, "$1,\\;");
}

/** "σ(x) = …" in the trade's symbols. Where a choice decides, the equation for it, or all of them where no values are given. */
export function equationTex(
  math: Parser,
  f: Formula,
  step: string,
  values?: Readonly<Record<string, unknown>>,
): string {
  const symbols = symbolsOf(f);
  const declared = f.steps[step]!;
  if ("governing" in declared) return equationFor(declared, values);
  if ("lookup" in declared) return "";
  const tex = (equation: string): string =>
    toTex(math, equation, (name) => symbols.get(name) ?? (name === "pi" ? "\\pi" : `\\mathrm{${name}}`));
  if (!declared.cases) return `${symbols.get(step)!} = ${tex(declared.equation)}`;
  const { argument, as } = declared.cases;
  const chosen = values && as[String(values[argument])];
  if (chosen !== undefined) return `${symbols.get(step)!} = ${tex(chosen)}`;
  const lines = Object.entries(as).map(([value, own]) => `${tex(own)} & \\text{${value}}`);
  return `${symbols.get(step)!} = \\begin{cases} ${lines.join(" \\\\ ")} \\end{cases}`;
}

/** The right-hand side with the numbers put in, in the units the equation reads; empty where there is no such line. */
export function substitutionTex(
  math: Parser,
  f: Formula,
  step: string,
  values: Readonly<Record<string, unknown>>,
): string {
  const declared = f.steps[step]!;
  if (!("equation" in declared)) return "";
  return toTex(math, equationFor(declared, values), (name) => {
    const value = values[name];
    if (typeof value === "number") return numberTex(value, true);
    if (typeof value === "string") return `\\text{${value.replace(/_/g, "\\_")}}`;
    return name === "pi" ? "\\pi" : `\\mathrm{${name}}`;
  });
}
