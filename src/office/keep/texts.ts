/** What a text of a template may not hold; undefined where it may stand on a sheet. */
export function textFault(text: string): string | undefined {
  const link = /(?:[a-z][a-z0-9+.-]*:\/\/|\b(?:javascript|vbscript|data|file):|\\\\[\w.-]+\\)\S*/i.exec(text);
  if (link) return `it holds the address “${link[0].slice(0, 60)}”: texts of templates hold none`;
  if (/[\u0000-\u0008\u000b-\u001f\u007f]/.test(text)) return "it holds characters that cannot be shown";
  if (text.length > 4000) return `it has ${text.length} letters; at most 4000 are taken`;
  return undefined;
}
