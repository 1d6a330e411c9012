import { basisText, ownCopyAdvice, sources, type Source } from "../core/index.ts";
import { namespace } from "../../functions/index.ts";
import { hasSymbol, sentenceParts, symbolParts } from "../typeset/index.ts";
import type { Markup } from "./html.ts";
import { html } from "./html.ts";

/** A trade symbol with its subscripts; nothing where there is none. */
export function symbol(of: string): Markup {
  if (!hasSymbol(of)) return html``;
  return html`<span class="kr-symbol">${symbolParts(of).map(({ base, sub }) => html`${base.length === 1 && /\p{L}/u.test(base) ? html`<i>${base}</i>` : base}${sub !== "" && html`<sub>${sub}</sub>`}`)}</span>`;
}

/** A sentence whose symbols are set with their subscripts. */
export function sentence(of: string): Markup {
  return html`${sentenceParts(of).map(({ text, isSymbol }) => (isSymbol ? symbol(text) : html`${text}`))}`;
}

/** A long name that breaks before an underscore, not inside a word or a year. */
export function functionName(id: string, prefix = `${namespace}.`): Markup {
  return html`${prefix}${id.split("_").map((part, i) => (i === 0 ? html`${part}` : html`<wbr>_${part}`))}`;
}

/** The unit as it is read; a plain number has none. */
export const unitText = (unit: string): string => (unit === "–" || unit === "" ? "plain number" : unit);

/** Source, clause, how it was established, and the advice to look into one's own copy. */
export function sourceWords({ key, clause, basis, readIn }: Source): Markup {
  return html`<p><cite>${sources[key]}</cite>${clause !== undefined && html` ${/^\p{Lu}\p{Ll}/u.test(clause) ? "" : "Clause "}${clause}${clause.endsWith(".") ? "" : "."}`}</p>
<p>Basis: <strong>${basisText[basis]}</strong>${readIn && html`, in <cite>${sources[readIn].replace(/\.$/, "")}</cite>`}.${basis !== "derived" && html` ${ownCopyAdvice}`}</p>`;
}
