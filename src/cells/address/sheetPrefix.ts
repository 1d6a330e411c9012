const quote = "'";

/** What stands before the last `!` of a reference or a name, without quotation marks, and what stands behind it; no sheet where there is no `!`. */
export function splitSheet(text: string): { readonly sheet?: string; readonly rest: string } {
  const at = text.lastIndexOf("!");
  if (at < 0) return { rest: text };
  const before = text.slice(0, at);
  const quoted = before.length > 1 && before.startsWith(quote) && before.endsWith(quote);
  return { sheet: (quoted ? before.slice(1, -1) : before).replaceAll("''", quote), rest: text.slice(at + 1) };
}

/** The sheet's name as formulas write it before `!`. */
export function quotedSheet(name: string): string {
  return /^[A-Za-z_]\w*$/.test(name) && !/^[A-Za-z]{1,3}\d+$|^R\d*C\d*$/i.test(name)
    ? name
    : `'${name.replaceAll("'", "''")}'`;
}
