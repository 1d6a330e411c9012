import {
  callNode,
  joined,
  letNode,
  nameNode,
  numberNode,
  textNode,
  binaryNode,
  type FormulaNode,
} from "../../cells/index.ts";
import { isRefusal, readChoice, type Choice, type Quantity } from "../../core/index.ts";

/** Spreadsheet programs show so many characters of a message; the core's own fit. */
export const shownCharacters = 255;

/** " MPa"; nothing for a plain number. */
export const unitText = ({ unit }: Pick<Quantity, "unit">): string => (unit === "–" ? "" : ` ${unit}`);

/** Texts and numbers one behind the other, neighbouring words put together. */
export function sentence(...parts: readonly (string | FormulaNode)[]): FormulaNode {
  const out: FormulaNode[] = [];
  let words = "";
  for (const part of parts) {
    if (typeof part === "string") words += part;
    else {
      if (words !== "") out.push(textNode(words));
      words = "";
      out.push(part);
    }
  }
  if (words !== "") out.push(textNode(words));
  return joined(...out);
}

/** Of what an entry is at most, in quotes: what is longer is cut. */
const longestQuoted = 40;

/** What the core says behind an entry of this length that is none of the choices. */
function choicesBehind(c: Choice, length: number): string {
  const entry = "¤".repeat(length);
  try {
    readChoice(entry, c, "");
  } catch (error) {
    if (!isRefusal(error)) throw error;
    return (error as Error).message.slice((error as Error).message.indexOf(`“${entry}”`) + length + 2);
  }
  throw new Error(`“${entry}” is a choice of ${c.text}`);
}

/** What stands behind an entry that is none of the choices: how many are listed depends on the length of the entry. */
export function behindEntry(c: Choice, quoted: FormulaNode): FormulaNode {
  const byLength: { text: string; upTo: number }[] = [];
  for (let length = 1; length <= longestQuoted; length++) {
    const text = choicesBehind(c, length);
    const last = byLength.at(-1);
    if (last?.text === text) last.upTo = length;
    else byLength.push({ text, upTo: length });
  }
  const longest = textNode(byLength.pop()!.text);
  if (byLength.length === 0) return longest;
  const size = nameNode("entry_n");
  const chosen = byLength.reduceRight(
    (rest, { text, upTo }) => callNode("IF", binaryNode("<=", size, numberNode(upTo + 2)), textNode(text), rest),
    longest,
  );
  return letNode([["entry_n", callNode("LEN", quoted)]], chosen);
}

/** What the core says of a choice that is missing. */
export function missingChoice(c: Choice): string {
  try {
    readChoice("", c, "");
  } catch (error) {
    if (isRefusal(error)) return (error as Error).message;
    throw error;
  }
  throw new Error(`${c.text} is never missing`);
}
