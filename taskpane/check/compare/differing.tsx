/** Names, numbers, texts and signs of a formula or a value. */
const pieces = (text: string): readonly string[] => text.match(/"[^"]*"|[\p{L}\p{N}_.$]+|\s+|./gsu) ?? [];

/** How many pieces two texts share before they part. */
function shared(a: readonly string[], b: readonly string[]): number {
  let n = 0;
  while (n < a.length && n < b.length && a[n] === b[n]) n++;
  return n;
}

/** A text with the part marked that another one has otherwise; formulas alone, since in a word or a number nothing stays the same. */
export function Differing({ text, from }: { readonly text: string; readonly from: string | undefined }) {
  if (!text.startsWith("=") || !from?.startsWith("=") || text === from) return <>{text}</>;
  const [mine, other] = [pieces(text), pieces(from)];
  const start = shared(mine, other);
  const end = shared(mine.slice(start).reverse(), other.slice(start).reverse());
  const differing = mine.slice(start, mine.length - end).join("");
  return (
    <>
      {mine.slice(0, start).join("")}
      {differing && <mark>{differing}</mark>}
      {mine.slice(mine.length - end).join("")}
    </>
  );
}
