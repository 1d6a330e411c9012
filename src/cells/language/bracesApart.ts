/** Where the text that begins at a quotation mark ends. */
function endOfText(formula: string, from: number): number {
  for (let at = from + 1; at < formula.length; at++) {
    if (formula[at] !== '"') continue;
    if (formula[at + 1] !== '"') return at + 1;
    at++;
  }
  return formula.length;
}

/** Braces and what stands between them, apart; braces within texts are the text's own. */
export function bracesApart(formula: string): readonly { readonly text: string; readonly braces: boolean }[] {
  const out: { text: string; braces: boolean }[] = [];
  let from = 0;
  for (let at = 0; at < formula.length;) {
    if (formula[at] === '"') at = endOfText(formula, at);
    else if (formula[at] !== "{") at++;
    else {
      const end = formula.indexOf("}", at) + 1 || formula.length;
      if (at > from) out.push({ text: formula.slice(from, at), braces: false });
      out.push({ text: formula.slice(at, end), braces: true });
      from = at = end;
    }
  }
  return from < formula.length ? [...out, { text: formula.slice(from), braces: false }] : out;
}
