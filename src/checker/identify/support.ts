import { isUnusual, outside, type Quantity } from "../../core/index.ts";
import { greekNames } from "../../typeset/index.ts";
import { letters, saysOtherwise } from "../trace/contraries.ts";
import type { Label } from "../trace/labels.ts";
import { inUnit } from "../trace/units.ts";

/** Strains are called by the first letters. */
const greek: Readonly<Record<string, string>> = { ...greekNames, ε: "eps" };

/** A symbol in Latin letters and figures, as people spell it on a keyboard. */
function spelledSymbol(symbol: string): string {
  return [...letters(symbol)]
    .map((c) => greek[c] ?? c)
    .join("")
    .replace(/[^A-Za-z0-9]/g, "");
}

const empty = new Set(
  (
    "the and for with from per that this its are not any all one two where which than into only value values number given " +
    "used has been was over under each other used blank"
  ).split(" "),
);

/** The words of a text that say something, cut so that plurals and the like are the same. */
function stems(text: string): readonly string[] {
  const words = text.toLowerCase().match(/[a-z]{3,}/g) ?? [];
  return [...new Set(words.filter((w) => !empty.has(w)).map((w) => w.replace(/(?:ing|ed|es|s)$/, "").slice(0, 7)))];
}
const stemsKnown = new Map<string, ReadonlySet<string>>();
export function stemsOf(text: string): ReadonlySet<string> {
  const before = stemsKnown.get(text);
  if (before) return before;
  const made = new Set(stems(text));
  if (stemsKnown.size > 5000) stemsKnown.clear();
  stemsKnown.set(text, made);
  return made;
}

/** What a label says for or against a cell being a quantity. */
export interface Support {
  readonly symbol: boolean;
  /** Words that both have. */
  readonly words: number;
  /** The unit it names, in units of the quantity; undefined where it names none. */
  readonly unit?: number;
  /** It names a unit of another kind. */
  readonly otherKind: boolean;
  /** Its words say that it is something else. */
  readonly otherwise: boolean;
}

/** Symbols of strengths that say what a strength is not. */
const strengths: readonly (readonly [symbol: RegExp, against: RegExp])[] = [
  [/^fck$/i, /\bmean\b/i],
  [/^fcm$/i, /\bcharacteristic\b/i],
  [/^fc[uk]?,?cube$|^fcu$/i, /\bcylinder\b|\bmean\b/i],
];

const none: Support = { symbol: false, words: 0, otherKind: false, otherwise: false };

const kept = new WeakMap<Label, Map<Quantity, Support>>();

export function supportOf(label: Label | undefined, quantity: Quantity): Support {
  if (!label) return none;
  const known = kept.get(label) ?? new Map<Quantity, Support>();
  kept.set(label, known);
  const before = known.get(quantity);
  if (before) return before;
  const made = readSupport(label, quantity);
  known.set(quantity, made);
  return made;
}

/** What a quantity is called, as labels are compared with it. */
interface Called {
  readonly symbol: string;
  readonly stems: ReadonlySet<string>;
}
const called = new WeakMap<Quantity, Called>();
function calledBy(quantity: Quantity): Called {
  const before = called.get(quantity);
  if (before) return before;
  const made = { symbol: spelledSymbol(quantity.symbol), stems: stemsOf(quantity.text) };
  called.set(quantity, made);
  return made;
}
/** A text that is but a symbol and a remark: "fctm", "Ecm (EN 1992-1-1:2004)". */
const symbolAlone = /^(?<symbol>[^\s()]{1,10})(?: ?\(.*\))?$/;

/** A letter behind what it stands for: "span L". */
const letterBehind = /\p{L}{3,} (?<symbol>\p{L})$/u;

const symbolIn = (text: string): string =>
  (symbolAlone.exec(text) ?? letterBehind.exec(text))?.groups?.["symbol"] ?? "";

const spelled = new WeakMap<Label, string>();
function spelledOf(label: Label): string {
  const before = spelled.get(label);
  if (before !== undefined) return before;
  // A symbol is written with a gap too: "beta cc".
  const alone = label.description.replace(/^(\p{L}+) (\p{L}{2,3})$/u, "$1$2");
  const symbol = label.symbol || symbolIn(alone);
  const made = spelledSymbol(symbol);
  spelled.set(label, made);
  return made;
}

function readSupport(label: Label, quantity: Quantity): Support {
  const symbol = spelledOf(label);
  const own = calledBy(quantity);
  const said = stemsOf(label.description);
  let words = 0;
  for (const word of said) if (own.stems.has(word)) words++;
  const unit = label.known ? inUnit(label.known, quantity.unit) : undefined;
  const plain = label.known?.unit === "–";
  const isOwn = symbol !== "" && (symbol === own.symbol || symbol.toLowerCase() === own.symbol.toLowerCase());
  let otherwise: boolean | undefined;
  return {
    symbol: isOwn,
    words,
    ...(unit !== undefined && { unit }),
    otherKind: label.known !== undefined && unit === undefined && !plain,
    // Found out when it is asked for: it takes longer than all else.
    get otherwise() {
      otherwise ??=
        saysOtherwise(label, quantity) ||
        (!isOwn && strengths.some(([of, against]) => of.test(symbol) && against.test(quantity.text)));
      return otherwise;
    },
  };
}

const same = (a: number, b: number): boolean => Math.abs(a / b - 1) < 1e-9;

/** How well a cell with a label and a value goes with a quantity in some unit. Orders what the numbers leave open. */
export function liking(support: Support, quantity: Quantity, value: number, scale: number): number {
  let points = (support.symbol ? 3 : 0) + Math.min(support.words, 3);
  if (support.unit !== undefined) points += same(support.unit, scale) ? 2.5 : -1;
  if (support.otherKind) points -= 2;
  // Where nothing speaks for it, what speaks against it changes nothing.
  if ((support.symbol || support.words > 0 || support.unit !== undefined) && support.otherwise) points -= 2;
  const there = value * scale;
  if (outside(quantity, there) !== undefined) points -= 4;
  else if (!isUnusual(quantity, there)) points += 1;
  if (scale === 1) points += 0.25;
  if (scale < 0) points -= 3;
  return points;
}

const words = new Map<string, readonly string[]>();
/** The words of a function's name without standard and edition: JACK_FORCE, BURSTING_FORCE_EN1992_2004. */
function wordsOfName(id: string): readonly string[] {
  const before = words.get(id);
  if (before) return before;
  const name = id.replace(/_(?:EN1992|IS1343|CEBFIP|ACI209R)_\d{4}$/, "").replace(/_/g, " ");
  const made = [...stemsOf(name)];
  words.set(id, made);
  return made;
}

/** Whether a label has every word of a function's name, of which there are several. */
export function namesFunction(label: Label | undefined, id: string): boolean {
  if (!label) return false;
  const wanted = wordsOfName(id);
  const said = stemsOf(label.description);
  return wanted.length > 1 && wanted.every((word) => said.has(word));
}
