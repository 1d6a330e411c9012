import { tokenize } from "@borgar/fx";

/** What stands between braces in a template's formula. */
export type Reference =
  | { readonly kind: "cell"; readonly id: string; readonly to?: string; readonly pick: Pick }
  | { readonly kind: "count"; readonly word: string }
  | { readonly kind: "shapeChanged" }
  | { readonly kind: "failing" };
export type Pick = "match" | "group" | "whole" | "above" | "first" | "last";
export type CellReference = Extract<Reference, { kind: "cell" }>;

/** A token of the formula language, or a reference. */
export type Token =
  | { readonly type: "reference"; readonly text: string; readonly reference: Reference }
  | {
      readonly type: "number" | "string" | "operator" | "function" | "whitespace" | "boolean" | "other";
      readonly text: string;
    };

export interface ParsedFormula {
  readonly tokens: readonly Token[];
  readonly problems: readonly string[];
}

const picks: Readonly<Record<string, Pick>> = {
  "[]": "group",
  "[*]": "whole",
  "[-1]": "above",
  "[first]": "first",
  "[last]": "last",
};

export function parseReference(inside: string): Reference | undefined {
  if (inside === "shapeChanged" || inside === "failing") return { kind: inside };
  const count = /^count:([A-Za-z][A-Za-z ]*)$/.exec(inside);
  if (count) return { kind: "count", word: count[1]! };
  const cell = /^([A-Za-z]\w*)(?::([A-Za-z]\w*))?(\[[^\]]*\])?$/.exec(inside);
  if (!cell) return undefined;
  const pick = cell[3] === undefined ? "match" : picks[cell[3]];
  if (!pick || (cell[2] !== undefined && pick !== "group" && pick !== "whole")) return undefined;
  return { kind: "cell", id: cell[1]!, pick, ...(cell[2] !== undefined && { to: cell[2] }) };
}

const kinds: Readonly<Record<string, Exclude<Token["type"], "reference">>> = {
  number: "number",
  string: "string",
  operator: "operator",
  func: "function",
  whitespace: "whitespace",
  newline: "whitespace",
  bool: "boolean",
};

const known = new Map<string, ParsedFormula>();

/** Splits a formula (with or without `=`) into tokens. References travel through the tokenizer as names. */
export function parseFormula(formula: string): ParsedFormula {
  const before = known.get(formula);
  if (before) return before;
  const problems: string[] = [];
  const references: { text: string; reference: Reference }[] = [];
  const named = formula.replace(/^=/, "").replace(/\{([^{}]*)\}/g, (text, inside: string) => {
    const reference = parseReference(inside);
    if (!reference) {
      problems.push(`${text} is not a reference`);
      return "0";
    }
    references.push({ text, reference });
    return `kbref_${references.length - 1}_`;
  });
  let found = 0;
  const tokens = tokenize(`=${named}`)
    .slice(1)
    .map((token): Token => {
      const name = /^kbref_(\d+)_$/.exec(token.value);
      if (name) {
        found++;
        return { type: "reference", ...references[Number(name[1])]! };
      }
      return { type: kinds[token.type] ?? "other", text: token.value };
    });
  if (found !== references.length) problems.push("a reference stands inside a text or touches another name");
  const parsed = { tokens, problems };
  known.set(formula, parsed);
  return parsed;
}

/** A call of one of our worksheet functions inside a formula. */
export interface Call {
  /** Without the namespace. */
  readonly id: string;
  readonly arguments: readonly (readonly Token[])[];
  /** Nothing else stands in the formula. */
  readonly whole: boolean;
}

export const namespace = "KERN.";

const isBlank = (token: Token): boolean => token.type === "whitespace";

export function trim(tokens: readonly Token[]): readonly Token[] {
  let from = 0;
  let to = tokens.length;
  while (from < to && isBlank(tokens[from]!)) from++;
  while (to > from && isBlank(tokens[to - 1]!)) to--;
  return tokens.slice(from, to);
}

/** The token that is the whole expression. */
export function only(tokens: readonly Token[]): Token | undefined {
  const trimmed = trim(tokens);
  return trimmed.length === 1 ? trimmed[0] : undefined;
}

/** The calls of our functions, outer ones first. */
export function calls(tokens: readonly Token[]): readonly Call[] {
  const all = trim(tokens);
  const out: Call[] = [];
  all.forEach((token, i) => {
    if (token.type !== "function" || !token.text.toUpperCase().startsWith(namespace)) return;
    const list: Token[][] = [[]];
    let depth = 0;
    let j = i + 1;
    for (; j < all.length; j++) {
      const t = all[j]!;
      if (t.type === "operator" && t.text === ")" && --depth === 0) break;
      if (t.type === "operator" && t.text === "," && depth === 1) list.push([]);
      else if (depth > 0) list.at(-1)!.push(t);
      if (t.type === "operator" && t.text === "(") depth++;
    }
    const args = list.length === 1 && trim(list[0]!).length === 0 ? [] : list.map(trim);
    out.push({ id: token.text.slice(namespace.length), arguments: args, whole: i === 0 && j === all.length - 1 });
  });
  return out;
}
