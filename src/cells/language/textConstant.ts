/** A text as a formula writes it. */
export function quotedText(text: string): string {
  return `"${text.replaceAll('"', '""')}"`;
}

/** The text that a formula writes. */
export function unquotedText(written: string): string {
  return written.slice(1, -1).replaceAll('""', '"');
}

/** Programs take no constants longer than 255 characters. */
const longest = 240;

/** A text of any length as a formula writes it: in parts where it is long. */
export function textConstant(text: string): string {
  const parts: string[] = [];
  for (let from = 0; from === 0 || from < text.length; from += longest)
    parts.push(quotedText(text.slice(from, from + longest)));
  return parts.join("&");
}
