import { areaA1, columnOfLetters, namespace, placeOfKey, quotedSheet, type Book } from "../../cells/index.ts";
import { formulas } from "../../core/index.ts";
import type { Match } from "./match.ts";
import type { TargetInput } from "./target.ts";

const close = (a: number, b: number): boolean => Math.abs(a / b - 1) < 1e-12;

/** A number as a formula has it. */
const typed = (value: number): string => String(Number(value.toPrecision(15)));

/** An expression times a factor, written as people write it. */
function times(text: string, factor: number): string {
  const size = Math.abs(factor);
  const sign = factor < 0 ? "-" : "";
  if (close(size, 1)) return sign + text;
  if (close(size, Math.PI / 180)) return `${sign}RADIANS(${text})`;
  return size < 1 ? `${sign}${text}/${typed(1 / size)}` : `${sign}${text}*${typed(size)}`;
}

/** A cell as a formula on a sheet refers to it. */
export function cellText(book: Book, key: number, from: number): string {
  const { sheet, row, column } = placeOfKey(key);
  const cell = areaA1({ row, column, rows: 1, columns: 1 }, false);
  return sheet === from ? cell : `${quotedSheet(book.sheets[sheet]!.sheet)}!${cell}`;
}

/** An input as a formula writes it. */
export function inputText(book: Book, input: TargetInput, from: number): string {
  if (input.part !== undefined) return input.part;
  if (input.typed) return typed(input.value);
  return cellText(book, input.key!, from);
}

const cellAlone = /^(?<before>(?:.*!)?)(?<column>[A-Z]+)(?<row>\d+)$/;

/** Cells side by side as a range; undefined for others. */
function asRange(texts: readonly string[]): string | undefined {
  const cells = texts.map((text) => cellAlone.exec(text)?.groups);
  const [first] = cells;
  const besides = cells.every((cell, n) => {
    if (!cell || !first || cell["row"] !== first["row"] || cell["before"] !== first["before"]) return false;
    return columnOfLetters(cell["column"]!) === columnOfLetters(first["column"]!) + n;
  });
  return first && besides ? `${texts[0]!}:${cells.at(-1)!["column"]!}${first["row"]!}` : undefined;
}

/** Values of one row as a range has them. */
function inOneRow(texts: readonly string[]): string {
  if (texts.length === 1) return texts[0]!;
  const range = asRange(texts);
  if (range !== undefined) return range;
  return `CHOOSE({${texts.map((_, i) => i + 1).join(",")}},${texts.join(",")})`;
}

/** An input of a match as the function takes it. */
function argumentText(book: Book, { target, order }: Match, scales: readonly number[], j: number): string {
  const input = target.inputs[order[j]!]!;
  const text = inputText(book, input, target.cell.sheet);
  const scale = scales[j]!;
  if (input.typed) return typed(input.value * scale);
  return times(input.part !== undefined && Math.abs(scale) !== 1 ? `(${text})` : text, scale);
}

/** A function's arguments with those left out that come last. */
function call(id: string, args: readonly string[]): string {
  const given = [...args];
  while (given.at(-1) === "") given.pop();
  return `${namespace}${id}(${given.join(",")})`;
}

/** What a particular case fixes among a function's arguments, by name. */
export function writtenOf(
  book: Book,
  match: Match,
  scales = match.scales,
): { readonly fixed: Readonly<Record<string, string>>; readonly own: Readonly<Record<string, string>> } {
  const { rule } = match;
  const within = (j: number): string => {
    const text = argumentText(book, match, scales, j);
    return match.target.inputs[match.order[j]!]!.part === undefined ? text : `(${text})`;
  };
  const own = Object.fromEntries(rule.inputs.map(({ name }, j) => [name, within(j)]));
  return { own, fixed: rule.particular?.written(own) ?? {} };
}

/** The library's function linked to the cells of a match. */
export function offeredFormula(book: Book, match: Match, scales = match.scales, out = match.out): string {
  const { rule } = match;
  const { formula, choices, particular } = rule;
  const argument = (j: number): string => argumentText(book, match, scales, j);
  const { own, fixed } = writtenOf(book, match, scales);
  const asked = particular ? formulas.find(({ id }) => id === formula.id)!.params : formula.params;
  const args = Object.keys(asked).map((name) => {
    const choice = choices[name];
    if (choice !== undefined) return typeof choice === "number" ? String(choice) : `"${choice}"`;
    if (fixed[name] !== undefined) return fixed[name];
    const row = [
      ...rule.tied.flatMap((tie) => (tie.of === name ? [rule.inputs.findIndex((input) => input.name === tie.to)] : [])),
      ...rule.inputs.flatMap(({ column }, n) => (column?.of === name ? [n] : [])),
    ];
    if (row.length > 0) return inOneRow(row.map(argument));
    const j = rule.inputs.findIndex((input) => input.name === name);
    return j >= 0 ? argument(j) : "";
  });
  const whole = call(formula.id, args);
  return `=${times(particular?.around?.(whole, own) ?? whole, 1 / out)}`;
}
