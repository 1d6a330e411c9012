import { quotedText } from "../cells/index.ts";
import { conflict } from "./relations.ts";
import type { InputSpec } from "./template.ts";
import type { Bounds } from "../core/index.ts";

/** An input cell with the cells that hold its bounds. */
export interface StatusOf {
  readonly cell: string;
  readonly input: InputSpec;
  readonly bounds: Bounds & { readonly whole?: true };
  readonly from: string;
  readonly to: string;
  /** The quantity whose everyday range is asked; absent where it has none. */
  readonly everyday?: string;
  /** Conditions that are TRUE where the input contradicts another. */
  readonly broken?: readonly string[];
  /** Condition that is TRUE where the input may not stay empty. */
  readonly needed?: string;
}

const or = (conditions: readonly string[]): string =>
  conditions.length === 1 ? conditions[0]! : `OR(${conditions.join(",")})`;

function missing({ cell, input, needed }: StatusOf): string {
  // The embedded grid takes 0 for an empty text where AND compares them.
  const blank = input.choices ? `${cell}=""` : `NOT(ISNUMBER(${cell}))`;
  const neededBlank = needed === undefined ? [] : [`AND(${blank},${needed})`];
  if (input.choices) return input.mayBeEmpty ? or([...neededBlank, ...(needed === undefined ? ["FALSE"] : [])]) : blank;
  return input.mayBeEmpty ? or([`AND(${cell}<>"",NOT(ISNUMBER(${cell})))`, ...neededBlank]) : `NOT(ISNUMBER(${cell}))`;
}

function outside({ cell, input, bounds, from, to }: StatusOf): string | undefined {
  const conditions = input.choices
    ? // Compared as text, so that choices that are numbers stay texts of the formula.
      [`NOT(${or(input.choices.map(({ value }) => `${cell}&""=${quotedText(String(value))}`))})`]
    : [
        ...(bounds.min !== undefined ? [`${cell}<${from}`] : bounds.above !== undefined ? [`${cell}<=${from}`] : []),
        ...(bounds.max !== undefined ? [`${cell}>${to}`] : bounds.below !== undefined ? [`${cell}>=${to}`] : []),
        ...(bounds.whole ? [`${cell}<>INT(${cell})`] : []),
      ];
  if (conditions.length === 0) return undefined;
  return input.mayBeEmpty ? `AND(${cell}<>"",${or(conditions)})` : or(conditions);
}

/** What the sheet says of inputs of one quantity, empty where they are usual. */
export function inputWarningsCall(quantity: string, cells: string): string {
  return `KERN.INPUT_WARNINGS("${quantity}",${cells})`;
}

/** What the sheet was built with is told from what somebody typed, as far as the value tells. */
function givenOrDefault(judged: readonly StatusOf[]): string {
  const [only, ...more] = judged;
  const built = only?.input.default;
  if (more.length > 0 || !only || built === undefined) return '"filled in"';
  const same = typeof built === "number" ? `${only.cell}=${built}` : `${only.cell}&""=${quotedText(built)}`;
  return `IF(${same},"default","filled in")`;
}

/**
 * The status of one input or of a table row's inputs: MISSING, OUT OF RANGE, CONFLICT, UNUSUAL, left empty, default or
 * filled in, which says nothing of by whom.
 * Undefined where none is judged.
 */
export function statusFormula(all: readonly StatusOf[]): string | undefined {
  const judged = all.filter(({ input }) => !input.freeText);
  if (judged.length === 0) return undefined;
  const ranges = judged.flatMap((one) => outside(one) ?? []);
  const watched = judged.flatMap(({ cell, everyday }) =>
    everyday === undefined ? [] : [`${inputWarningsCall(everyday, cell)}<>""`],
  );
  const plain = givenOrDefault(judged);
  const usual = watched.length === 0 ? plain : `IF(${or(watched)},"UNUSUAL",${plain})`;
  // Where nothing has to be there, a row without anything is not filled in.
  const none = judged.map(({ cell }) => `${cell}=""`);
  const given = judged.every(({ input }) => input.mayBeEmpty)
    ? `IF(${none.length === 1 ? none[0]! : `AND(${none.join(",")})`},"left empty",${usual})`
    : usual;
  const broken = judged.flatMap((one) => one.broken ?? []);
  const agreeing = broken.length === 0 ? given : `IF(${or(broken)},"${conflict}",${given})`;
  const inRange = ranges.length === 0 ? agreeing : `IF(${or(ranges)},"OUT OF RANGE",${agreeing})`;
  // A text compared with a number would count as large, so the range is asked only of cells that hold what they should.
  return `=IF(${or(judged.map(missing))},"MISSING",${inRange})`;
}
