/** A piece of a sentence: words, or a trade symbol to be set with its subscripts. */
interface SentencePart {
  readonly text: string;
  readonly isSymbol: boolean;
}

const inText = /(?<![\p{L}\p{N}_])((?:[A-Za-z]|Δ?[\u03b1-\u03c9µ]|Δ[A-Za-z])_[\p{L}\p{N}∞]+(?:[.,][\p{L}\p{N}]+)*)/u;

/** A sentence parted at its symbols, such as f_ck. */
export function sentenceParts(sentence: string): readonly SentencePart[] {
  return sentence.split(inText).map((text, i) => ({ text, isSymbol: i % 2 === 1 }));
}

/** A text with a stop at its end, unless it ends with one or with a question. */
export const ended = (text: string): string => (/[.?!]$/.test(text) ? text : `${text}.`);
