import { hasSymbol, sentenceParts, symbolParts } from "../../src/typeset/index.ts";

/** A trade symbol in running text. A dash, which stands for no symbol, shows nothing. */
export function TradeSymbol({ of }: { readonly of: string }) {
  if (!hasSymbol(of)) return null;
  return (
    <span class="kb-symbol">
      {symbolParts(of).map(({ base, sub }, i) => (
        <span key={i}>
          {base.length === 1 && /\p{L}/u.test(base) ? <i>{base}</i> : base}
          {sub && <sub>{sub}</sub>}
        </span>
      ))}
    </span>
  );
}

/** A sentence whose symbols, such as f_ck, are set with their subscripts. */
export function Sentence({ of }: { readonly of: string }) {
  return <>{sentenceParts(of).map(({ text, isSymbol }, i) => (isSymbol ? <TradeSymbol key={i} of={text} /> : text))}</>;
}
