import { hasSymbol, splitSymbol } from "./symbols.ts";

/** A trade symbol in running text. A dash, which stands for no symbol, shows nothing. */
export function TradeSymbol({ of }: { readonly of: string }) {
  if (!hasSymbol(of)) return null;
  const { base, sub } = splitSymbol(of);
  return <span class="kb-symbol">{base.length === 1 ? <i>{base}</i> : base}{sub && <sub>{sub}</sub>}</span>;
}
