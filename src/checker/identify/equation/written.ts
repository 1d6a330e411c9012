import { format } from "../../../core/index.ts";
import type { Expression } from "./tree.ts";

/** How strongly an expression holds together: a sum 1, a product 2, a power 3, all else 4. */
function strength(e: Expression): number {
  if (e.kind === "sum") return 1;
  if (e.kind === "product") return 2;
  if (e.kind === "power") return 3;
  return e.kind === "compared" || e.kind === "case" ? 0 : 4;
}

/** An equation in one line, as people write it in a mail: 0.15·σ, (t − t0)/βH. */
export function written(e: Expression, symbolOf: (name: string) => string): string {
  const inside = (part: Expression, least: number): string => {
    const text = written(part, symbolOf);
    return strength(part) < least ? `(${text})` : text;
  };
  switch (e.kind) {
    case "number":
      return e.value === Math.PI ? "π" : format(e.value);
    case "name":
      return symbolOf(e.name);
    case "text":
      return e.text;
    case "sum":
      return e.terms
        .map(({ minus, of }, i) => {
          const text = inside(of, minus ? 2 : 1);
          if (i === 0) return minus ? `−${text}` : text;
          return ` ${minus ? "−" : "+"} ${text}`;
        })
        .join("");
    case "product":
      return e.factors
        .map(({ under, of }, i) => {
          const text = inside(of, under ? 3 : 2);
          if (i === 0) return under ? `1/${text}` : text;
          return `${under ? "/" : "·"}${text}`;
        })
        .join("");
    case "power":
      return `${inside(e.base, 4)}^${inside(e.exponent, 4)}`;
    case "call":
      return e.name === "sqrt"
        ? `√(${written(e.given[0]!, symbolOf)})`
        : `${e.name === "log" ? "ln" : e.name}(${e.given.map((one) => written(one, symbolOf)).join(", ")})`;
    case "compared":
      return `${written(e.a, symbolOf)} ${e.by} ${written(e.b, symbolOf)}`;
    case "case":
      return `${written(e.then, symbolOf)} or ${written(e.otherwise, symbolOf)}`;
  }
}
