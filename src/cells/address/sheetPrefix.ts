const quote = "'";

/**
 * What stands before the last `!` of a reference or a name, without quotation marks, and what stands behind it; no
 * sheet where there is no `!`.
 */
export function splitSheet(text: string): { readonly sheet?: string; readonly rest: string } {
  const at = text.lastIndexOf("!");
  if (at < 0) return { rest: text };
  const before = text.slice(0, at);
  const quoted = before.length > 1 && before.startsWith(quote) && before.endsWith(quote);
  return { sheet: (quoted ? before.slice(1, -1) : before).replaceAll("''", quote), rest: text.slice(at + 1) };
}

/**
 * What programs take for a cell, a row or a column in one of their two ways of counting, or for a truth value, at the
 * beginning of a name.
 */
const likeReference = /^(?:[a-z]{1,3}\d|[rc]\d*(?:c\d*)?(?:[\W_]|$)|(?:true|false)$)/i;

/** The sheet's name as formulas write it before `!`: in quotation marks unless it is a plain word that cannot be read as something else. */
export function quotedSheet(name: string): string {
  return /^[A-Za-z_]\w*$/.test(name) && !likeReference.test(name) ? name : `'${name.replaceAll("'", "''")}'`;
}
