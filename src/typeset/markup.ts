import { html, type Markup } from "./html.ts";
import { sentenceParts } from "./sentence.ts";
import { hasSymbol, symbolParts } from "./symbols.ts";

/** A trade symbol with its subscripts; nothing where there is none. */
export function symbol(of: string): Markup {
  if (!hasSymbol(of)) return html``;
  return html`<span class="kr-symbol">${symbolParts(of).map(
    ({ base, sub }) =>
      html`${base.length === 1 && /\p{L}/u.test(base) ? html`<i>${base}</i>` : base}${sub !== "" && html`<sub>${sub}</sub>`}`,
  )}</span>`;
}

/** A sentence whose symbols are set with their subscripts. */
export function sentence(of: string): Markup {
  return html`${sentenceParts(of).map(({ text, isSymbol }) => (isSymbol ? symbol(text) : html`${text}`))}`;
}
