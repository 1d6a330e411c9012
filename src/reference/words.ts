import { basisText, ownCopyAdvice, sources, type Source } from "../core/index.ts";
import { namespace } from "../../functions/index.ts";
import { clauseWords, html, sentence, symbol, type Markup } from "../typeset/index.ts";

export { sentence, symbol };

/** A long name that breaks before an underscore, not inside a word or a year. */
export function functionName(id: string, prefix = `${namespace}.`): Markup {
  return html`${prefix}${id.split("_").map((part, i) => (i === 0 ? html`${part}` : html`<wbr>_${part}`))}`;
}

/** The unit as it is read; a plain number has none. */
export const unitText = (unit: string): string => (unit === "–" || unit === "" ? "plain number" : unit);

/** Source, clause, how it was established, and the advice to look into one's own copy. */
export function sourceWords({ key, clause, basis, readIn }: Source): Markup {
  return html`<p><cite>${sources[key]}</cite>${clause !== undefined && html` ${clauseWords(clause)}${clause.endsWith(".") ? "" : "."}`}</p>
<p>Basis: <strong>${basisText[basis]}</strong>${
    readIn && html`, in <cite>${sources[readIn].replace(/\.$/, "")}</cite>`
  }.${basis !== "derived" && html` ${ownCopyAdvice}`}</p>`;
}
