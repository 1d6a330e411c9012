import { placeOfKey, type Book } from "../../cells/index.ts";
import { format, inForce, isUnusual, outside, type Label as Choice, type Quantity } from "../../core/index.ts";
import type { Difference } from "./finding.ts";
import type { Labels } from "./labelled.ts";
import { cellCalled } from "./fits.ts";
import { supportFor, type Match } from "./match.ts";
import { inputText } from "./offer.ts";
import type { Library, Rule } from "./rules.ts";
import { scaleName } from "./scales.ts";
import { stemsOf, supportOf } from "./support.ts";

/** What a departure may look at: a formula that agrees with a rule, and the sheet around it. */
interface Seen {
  readonly book: Book;
  readonly labels: Labels;
  readonly library: Library;
  readonly match: Match;
}

/** A difference with the units or the rule that the sheet itself speaks of. */
interface Said extends Difference {
  /** The match as the sheet's own words have it, for the function that is offered. */
  readonly meant?: Match;
}

/** A usual departure that the numbers alone do not show: the formula is a rule, but the sheet speaks of another. */
interface SaidDeparture {
  readonly kind: string;
  readonly find: (seen: Seen) => Said | undefined;
}

const named = ({ symbol, text }: Quantity): string => `${symbol.replace(/_/g, "")} (${text})`;

/** The value of a rule in the formula's unit, with the sheet's numbers; NaN where it has none. */
export function valueBy({ rule, target, order, scales, out }: Match): number {
  return rule.evaluate(order.map((i, j) => target.inputs[i]!.value * scales[j]!)) / out;
}

/** How far the formula's value is from the one meant. */
function effectOf(match: Match, meant: Match): number | undefined {
  const own = match.target.run(match.target.inputs.map(({ value }) => value));
  const other = valueBy(meant);
  const effect = own / other - 1;
  return Number.isFinite(effect) ? effect : undefined;
}

function withEffect(match: Match, meant: Match, kind: string, says: string): Said {
  const effect = effectOf(match, meant);
  return { kind, says, meant, ...(effect !== undefined && { effect }) };
}

/** The rule of the same function with another choice. */
function otherChoice({ library, match }: Seen, name: string, value: Choice): Rule | undefined {
  const { rule } = match;
  const given = rule.inputs.map((input) => input.name).join();
  return library.rules
    .get(rule.inputs.length)
    ?.find(
      (r) =>
        r.formula.id === rule.formula.id &&
        r.particular?.says === rule.particular?.says &&
        r.inputs.map((input) => input.name).join() === given &&
        Object.entries(rule.choices).every(([n, v]) => r.choices[n] === (n === name ? value : v)),
    );
}

/** A choice says what an argument is, as the wobble coefficient in 1/m or in rad/m; the unit beside the cell says it is the other. */
const convention: SaidDeparture = {
  kind: "convention",
  find: (seen) => {
    const { match, book } = seen;
    const { rule, target, order } = match;
    for (const [j, { name, quantity }] of rule.inputs.entries()) {
      const declared = rule.formula.params[name];
      if (declared?.kind !== "number" || !declared.follows) continue;
      const input = target.inputs[order[j]!]!;
      if (!supportFor(input, quantity).otherKind) continue;
      const { argument } = declared.follows;
      for (const value of Object.keys(declared.follows.as)) {
        const other = inForce(declared, { [argument]: value });
        const { unit } = supportOf(input.label, other);
        if (value === rule.choices[argument] || unit === undefined) continue;
        const meantRule = otherChoice(seen, argument, value);
        if (!meantRule) continue;
        const scales = match.scales.map((s, i) => (i === j ? unit : s));
        const meant: Match = { ...match, rule: meantRule, scales };
        const where = inputText(book, input, target.cell.sheet);
        const choice = rule.formula.params[argument];
        const text =
          choice?.kind === "choice" ? choice.values.find((c) => c.value === rule.choices[argument])?.text : "";
        return withEffect(
          match,
          meant,
          "convention",
          `The formula takes ${quantity.symbol.replace(/_/g, "")} in ${quantity.unit} (${text ?? ""}); ` +
            `the label of ${where} gives ${input.label!.unit}`,
        );
      }
    }
    return undefined;
  },
};

/**
 * Whether a label's unit makes the formula wrong: not where the units are nearly the same, nor where the value is an
 * everyday one as the formula takes it and none as the label has it; then the label is wrong.
 */
function isOtherUnit(said: number, taken: number, quantity: Quantity, value: number): boolean {
  const ratio = Math.abs(said / taken);
  if (ratio > 0.67 && ratio < 1.5) return false;
  const everyday = (scale: number): boolean =>
    outside(quantity, value * scale) === undefined && !isUnusual(quantity, value * scale);
  return !(everyday(Math.abs(taken)) && !everyday(said));
}

/** The formula takes a cell in another unit than the one beside it, or gives its value in another. */
const unitFactor: SaidDeparture = {
  kind: "unit",
  find: ({ match, book }) => {
    const { rule, target, order } = match;
    const said: string[] = [];
    const scales = rule.inputs.map(({ quantity }, j) => {
      const input = target.inputs[order[j]!]!;
      const { unit } = supportFor(input, quantity);
      const own = match.scales[j]!;
      if (unit === undefined || !isOtherUnit(unit, own, quantity, input.value)) return own;
      const where = inputText(book, input, target.cell.sheet);
      said.push(
        `${named(quantity)} is taken in ${scaleName(quantity, own)}; the label of ${where} gives ${input.label!.unit}`,
      );
      return unit * Math.sign(own);
    });
    const { unit } = supportOf(target.label, rule.result);
    let { out } = match;
    if (unit !== undefined && isOtherUnit(unit, out, rule.result, target.value)) {
      said.push(`the value is in ${scaleName(rule.result, out)}; the label of the result gives ${target.label!.unit}`);
      out = unit * Math.sign(out);
    }
    if (said.length === 0) return undefined;
    const all = withEffect(match, { ...match, scales, out }, "unit", said.join("; "));
    // Units that cancel, as k in 1/mm over a length in mm.
    return all.effect !== undefined && Math.abs(all.effect) < 1e-9 ? undefined : all;
  },
};

/** The label of a cell says that it holds another quantity, as a modulus of another age. */
const otherQuantity: SaidDeparture = {
  kind: "quantity",
  find: ({ match, book, labels }) => {
    const { rule, target, order } = match;
    for (const [j, { quantity }] of rule.inputs.entries()) {
      const input = target.inputs[order[j]!]!;
      if (!supportFor(input, quantity).otherwise) continue;
      const where = inputText(book, input, target.cell.sheet);
      const says = `${named(quantity)} is wanted; ${where} is called “${input.label!.description || input.label!.symbol}”`;
      const instead = cellCalled({ book, labels }, quantity, target);
      if (!instead) return { kind: "quantity", says };
      const inputs = target.inputs.map((one, i) => (i === order[j] ? instead.input : one));
      const scales = match.scales.map((s, i) => (i === j ? instead.scale : s));
      const meant: Match = { ...match, target: { ...target, inputs }, scales };
      const there = inputText(book, instead.input, target.cell.sheet);
      return withEffect(match, meant, "quantity", `${says}; ${there} holds what is wanted`);
    }
    return undefined;
  },
};

const decidesUnit = ({ formula }: Rule, name: string): boolean =>
  Object.values(formula.params).some((one) => one.kind === "number" && one.follows?.argument === name);

/** Whether a choice says what stands there, such as strand or wire, and not what is asked for. */
const isReadFromTable = ({ formula }: Rule, name: string): boolean =>
  Object.values(formula.steps).some((step) => "lookup" in step && step.lookup.of === name);

/** The names of choices that say something by themselves. */
const nameStems = (value: Choice): readonly string[] =>
  [...stemsOf(String(value).replace(/_/g, " "))].filter((word) => word.length > 3);

/** Whether texts have the name of another choice and not that of the formula's. */
function namesOther(own: Choice, other: Choice, said: ReadonlySet<string>): boolean {
  const [ours, theirs] = [nameStems(own), nameStems(other)];
  return ours.length > 0 && theirs.length > 0 && theirs.every((w) => said.has(w)) && !ours.every((w) => said.has(w));
}

/** Words one after the other, however they are joined: low-relaxation is low relaxation. */
const phraseOf = (text: string): string => (text.toLowerCase().match(/[a-z]+/g) ?? []).join(" ");

/** The texts beside the formula and its inputs name another value of a choice, as sudden release where the formula has gradual. */
const otherChoiceSaid: SaidDeparture = {
  kind: "convention",
  find: (seen) => {
    const { match, book } = seen;
    const { rule, target } = match;
    const rows = target.inputs.flatMap(({ key }) => (key === undefined ? [] : [placeOfKey(key).row]));
    const top = Math.min(target.cell.row, ...rows) - 1;
    const texts = textsAbout(book, target.cell, Math.max(0, top));
    const said = new Set(texts.flatMap((text) => [...stemsOf(text)]));
    const phrases = texts.map(phraseOf);
    for (const [name, value] of Object.entries(rule.choices)) {
      const parameter = rule.formula.params[name];
      // What decides a unit is told by the units.
      if (parameter?.kind !== "choice" || decidesUnit(rule, name)) continue;
      const wordsOf = (of: Choice): readonly string[] => {
        const text = parameter.values.find((one) => one.value === of)?.text ?? "";
        return [...stemsOf(`${String(of).replace(/_/g, " ")} ${text}`)];
      };
      const own = wordsOf(value);
      const usual = stemsOf(
        [rule.formula.summary, ...Object.values(rule.formula.params).map((one) => one.text)].join(" "),
      );
      for (const { value: other, text } of parameter.values) {
        if (other === value) continue;
        // What follows a colon is about the choice, as the document that has it.
        const phrase = phraseOf(text.split(":")[0]!);
        const inPhrase = phrase.includes(" ") && phrases.some((one) => one.includes(phrase));
        const apart = wordsOf(other).filter((word) => word.length > 3 && !own.includes(word) && !usual.has(word));
        const ownApart = own.filter((word) => !wordsOf(other).includes(word));
        const isCalled = isReadFromTable(rule, name) && namesOther(value, other, said);
        if (!inPhrase && !isCalled && !apart.some((word) => said.has(word))) continue;
        if (ownApart.length > 0 && ownApart.every((word) => said.has(word))) continue;
        const meantRule = otherChoice(seen, name, other);
        if (!meantRule) continue;
        const says = `The formula is the rule for ${name} ${String(value)}; the sheet speaks of ${text}`;
        const out = withEffect(match, { ...match, rule: meantRule }, "convention", says);
        if (out.effect !== undefined && Math.abs(out.effect) > 1e-9) return out;
      }
    }
    return undefined;
  },
};

/** Two inputs of the same kind stand where the labels want them the other way round. */
const exchanged: SaidDeparture = {
  kind: "exchanged",
  find: ({ match, book }) => {
    const { rule, target, order, scales } = match;
    const points = (i: number, j: number): number => {
      const support = supportFor(target.inputs[i]!, rule.inputs[j]!.quantity);
      return (support.symbol ? 3 : 0) + support.words - (support.otherwise ? 2 : 0);
    };
    for (let a = 0; a < order.length; a++)
      for (let b = a + 1; b < order.length; b++) {
        const [i, k] = [order[a]!, order[b]!];
        const [first, second] = [points(k, a) - points(i, a), points(i, b) - points(k, b)];
        const sameUnit = rule.inputs[a]!.quantity.unit === rule.inputs[b]!.quantity.unit;
        if (!sameUnit || first < 2 || second < 2) continue;
        const turned = order.map((own, j) => (j === a ? k : j === b ? i : own));
        const meant: Match = { ...match, order: turned, scales };
        const [one, two] = [i, k].map((n) => inputText(book, target.inputs[n]!, target.cell.sheet));
        return withEffect(
          match,
          meant,
          "exchanged",
          `${one!} and ${two!} are exchanged: by their labels ${two!} is ${named(rule.inputs[a]!.quantity)} ` +
            `and ${one!} is ${named(rule.inputs[b]!.quantity)}`,
        );
      }
    return undefined;
  },
};

/** "IS1343_1980" in a function's name: standard and edition. */
const editionOf = (id: string): RegExpExecArray | null =>
  /^(?<stem>.+)_(?<standard>EN1992|IS1343|CEBFIP|ACI209R)_(?<edition>\d{4})$/.exec(id);

const spelled: Readonly<Record<string, RegExp>> = {
  EN1992: /\b(?:EN ?1992|EC ?2|Eurocode ?2)\b/i,
  IS1343: /\bIS ?:? ?1343\b/i,
  CEBFIP: /\b(?:CEB|MC ?(?:19)?90|Model Code)\b/i,
  ACI209R: /\bACI ?209/i,
};

/** The texts beside the formula or at the head of its sheet name another standard or edition. */
const edition: SaidDeparture = {
  kind: "edition",
  find: ({ match, library, book }) => {
    const { rule, target } = match;
    const own = editionOf(rule.formula.id)?.groups;
    if (!own) return undefined;
    const said = textsAbout(book, target.cell);
    const standard = spelled[own["standard"]!]!;
    const others = [...library.rules.values()].flat().filter(({ formula: { id } }) => {
      const parts = editionOf(id)?.groups;
      return parts?.["stem"] === own["stem"] && id !== rule.formula.id;
    });
    const nearest = said.find((text) => Object.values(spelled).some((s) => s.test(text)));
    if (nearest === undefined) return undefined;
    for (const other of others) {
      const parts = editionOf(other.formula.id)!.groups!;
      const sameStandard = parts["standard"] === own["standard"];
      const isNamed = sameStandard
        ? standard.test(nearest) && nearest.includes(parts["edition"]!) && !nearest.includes(own["edition"]!)
        : spelled[parts["standard"]!]!.test(nearest) && !standard.test(nearest);
      if (!isNamed) continue;
      const says = `The formula is the rule of ${own["standard"]!}:${own["edition"]!}; the sheet names “${nearest}”`;
      const sameInputs = other.inputs.map(({ name }) => name).join() === rule.inputs.map(({ name }) => name).join();
      return sameInputs ? withEffect(match, { ...match, rule: other }, "edition", says) : { kind: "edition", says };
    }
    return undefined;
  },
};

/** Texts in the formula's row, above it in the same and the first columns, nearest first; then those of the first rows. */
function textsAbout(
  book: Book,
  { sheet, row, column }: { readonly sheet: number; readonly row: number; readonly column: number },
  top = 0,
): readonly string[] {
  const { cells } = book.sheets[sheet]!;
  const texts = (r: number): readonly string[] =>
    (cells[r] ?? []).flatMap(({ value }, c) =>
      typeof value === "string" && (r === row || c <= column) ? [value] : [],
    );
  const out: string[] = [];
  for (let r = row; r >= top; r--) out.push(...texts(r));
  return out;
}

/** Words by which a sheet says that it counts a quantity the other way. */
const otherWay = /\b(?:hogging|upwards?|above|negative|tension|tensile|up)\b|[-−]/i;

/**
 * One argument alone enters with the other sign, though its value is positive and nothing says that it is counted the
 * other way. Distances are measured either way, and where all is turned it is the sheet's convention.
 */
const otherSign: SaidDeparture = {
  kind: "sign",
  find: ({ match, book }) => {
    const { rule, target, order, scales, out } = match;
    const turned = scales.flatMap((scale, j) => (scale < 0 ? [j] : []));
    const [j] = turned;
    if (j === undefined || turned.length > 1 || out < 0) return undefined;
    const { quantity } = rule.inputs[j]!;
    const input = target.inputs[order[j]!]!;
    if (!(input.value > 0) || /\b(?:distance|level|height)\b/i.test(quantity.text)) return undefined;
    if (!input.label || otherWay.test(`${input.label.description} ${input.label.symbol}`)) return undefined;
    const meant: Match = { ...match, scales: scales.map((scale) => Math.abs(scale)) };
    const where = inputText(book, input, target.cell.sheet);
    const says = `${named(quantity)} enters with the other sign: right only where ${where} is counted the other way`;
    return withEffect(match, meant, "sign", says);
  },
};

/** In the order in which they are asked; the first that applies is told. */
export const saidDepartures: readonly SaidDeparture[] = [
  convention,
  unitFactor,
  edition,
  exchanged,
  otherQuantity,
  otherChoiceSaid,
  otherSign,
];

export const shownNumber = format;
export const shownName = named;
