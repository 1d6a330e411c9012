import type { Quantity } from "../../core/index.ts";
import type { Label } from "./labels.ts";

/** A symbol without signs for subscripts, by which symbols are compared. */
export const letters = (symbol: string): string => symbol.replace(/[_,\s{}]/g, "");

/**
 * Two things that one quantity cannot be at once, in the words of labels and of arguments; `of`: what they must be
 * said of. Common practice of the trade, no source.
 */
interface Contrary {
  readonly one: RegExp;
  readonly other: RegExp;
  readonly of?: RegExp;
}

const stressed = /\b(?:tendon stress|stress (?:after|at|in|wanted)|prestress|force)\b/i;
const contraries: readonly Contrary[] = [
  { one: /\bcubes?\b/i, other: /\bcylinders?\b/i },
  { one: /\bmean\b/i, other: /\bcharacteristic\b/i, of: /strength|prestressing force/i },
  { one: /\bdesign (?:value|strength|tensile|compressive)/i, other: /\b(?:characteristic|mean)\b/i, of: /strength/i },
  { one: /\btangent\b/i, other: /\bsecant\b/i },
  { one: /\b(?:upper|95 ?%)/i, other: /\b(?:lower|5 ?%)(?! ?\d)/i, of: /tensile strength/i },
  {
    one: /\b(?:upper|lower|95 ?%|5 ?%) ?(?:\w+ ){0,2}(?:tensile|fractile)|\bfractile\b/i,
    other: /^mean (?:axial )?tensile/i,
  },
  {
    one: /\b28[- ]?d(?:ays?)?\b/i,
    other: /\b(?:at|on) (?:transfer|release|stressing|detensioning|the (?:time|age)|age|early age)\b/i,
    of: /strength|modulus/i,
  },
  { one: /\btop\b/i, other: /\bbottom\b/i },
  { one: /\b(?:gross|net|precast|non-?composite)\b/i, other: /\bcomposite\b/i },
  { one: /\bautogenous\b/i, other: /\bdrying\b/i, of: /shrinkage/i },
  { one: /\b(?:autogenous|drying)\b/i, other: /\btotal shrinkage\b/i },
  { one: /\b(?:live|imposed|variable|service|ultimate)\b/i, other: /\bself-?weight\b/i, of: /moment|load/i },
  {
    one: /\b(?:initial|at the jack|jacking|immediate losses|just after release)\b/i,
    other: /\b(?:final|after all losses|long[- ]term|effective|at infinity)\b|∞/i,
    of: stressed,
  },
  {
    one: /\bat the jack\b|\bjacking\b|\bbefore (?:losses|release|transfer|anchoring|lock)/i,
    other:
      /\bafter (?:the )?(?:all |immediate |elastic )?(?:losses|release|transfer|anchor|lock|draw|seating|friction)/i,
    of: stressed,
  },
  {
    one: /\b(?:proof|yield|0[.,]1 ?%)/i,
    other: /\b(?:tendon tensile|ultimate|breaking|tensile strength of the prestressing)/i,
  },
  { one: /\bconcrete\b/i, other: /\b(?:steel|strands?|tendons?|wires?)\b/i, of: /modulus/i },
];

/** Symbols that say what a quantity is not, by its text and sort. */
const symbols: readonly (readonly [symbol: RegExp, against: RegExp])[] = [
  [/^fcu$|^fckcube$/i, /cylinder/],
  [/^fckcyl$/i, /cube/],
  [/^fcm(?:28)?$/i, /characteristic (?:cylinder|cube)/],
  [/^fcd$/i, /(?:characteristic|mean) (?:cylinder|cube)/],
  [/^fp0?[.]?1k?$/i, /tendon tensile strength/],
  [/^fp[ku]$/i, /tendon (?:proof|yield)/],
  [/^E(?:cm|c|ci)$/i, /tendon modulus/],
  [/^E[ps]$/i, /modulus (?:of elasticity )?of (?:the )?(?:topping's )?concrete/],
  [/^fc[km]\(t0?\)$|^fcm?i$/i, /strength at 28 days/],
  [/^Ec[m]?\(t0?\)$/i, /of (?:the )?concrete at 28 days/],
];

/** Whether the words or the symbol beside a cell say that it holds something else than what is wanted. */
export function saysOtherwise(
  { description, symbol }: Pick<Label, "description" | "symbol">,
  { sort = "", text, symbol: own }: Pick<Quantity, "sort" | "text" | "symbol">,
): boolean {
  const wanted = `${sort}; ${text}`;
  // A factor on something is none of its kinds.
  if (/^(?:factor|coefficient|part) /.test(text)) return false;
  const plain = letters(symbol);
  if (plain !== "" && plain !== letters(own) && symbols.some(([of, against]) => of.test(plain) && against.test(wanted)))
    return true;
  return contraries.some(({ one, other, of }) => {
    if (of && !of.test(wanted)) return false;
    const only = (words: RegExp, not: RegExp, said: string): boolean => words.test(said) && !not.test(said);
    return (
      (only(one, other, description) && only(other, one, wanted)) ||
      (only(other, one, description) && only(one, other, wanted))
    );
  });
}
