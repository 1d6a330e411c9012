import { hasSymbol, symbolParts } from "./symbols.ts";

/** A trade symbol in running text. A dash, which stands for no symbol, shows nothing. */
export function TradeSymbol({ of }: { readonly of: string }) {
  if (!hasSymbol(of)) return null;
  return <span class="kb-symbol">{symbolParts(of).map(({ base, sub }, i) => <span key={i}>{base.length === 1 && /\p{L}/u.test(base) ? <i>{base}</i> : base}{sub && <sub>{sub}</sub>}</span>)}</span>;
}

const inText = /(?<![\p{L}\p{N}_])((?:[A-Za-z]|Δ?[\u03b1-\u03c9µ]|Δ[A-Za-z])_[\p{L}\p{N}∞]+(?:[.,][\p{L}\p{N}]+)*)/u;

/** A sentence whose symbols, such as f_ck, are set with their subscripts. */
export function Sentence({ of }: { readonly of: string }) {
  return <>{of.split(inText).map((piece, i) => (i % 2 === 1 ? <TradeSymbol key={i} of={piece} /> : piece))}</>;
}
