import { areaA1, columnOfLetters, namespace, placeOfKey, quotedSheet, type Book } from "../../cells/index.ts";
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

/** The library's function linked to the cells of a match. */
export function offeredFormula(book: Book, match: Match, scales = match.scales, out = match.out): string {
  const { rule, target, order } = match;
  const { formula, choices } = rule;
  const argument = (j: number): string => {
    const input = target.inputs[order[j]!]!;
    const text = inputText(book, input, target.cell.sheet);
    const scale = scales[j]!;
    if (input.typed) return typed(input.value * scale);
    return times(input.part !== undefined && Math.abs(scale) !== 1 ? `(${text})` : text, scale);
  };
  const args = Object.keys(formula.params).map((name) => {
    const choice = choices[name];
    if (choice !== undefined) return typeof choice === "number" ? String(choice) : `"${choice}"`;
    const row = [
      ...rule.tied.flatMap((tie) => (tie.of === name ? [rule.inputs.findIndex((input) => input.name === tie.to)] : [])),
      ...rule.inputs.flatMap(({ column }, n) => (column?.of === name ? [n] : [])),
    ];
    if (row.length > 0) return inOneRow(row.map(argument));
    const j = rule.inputs.findIndex((input) => input.name === name);
    return j >= 0 ? argument(j) : "";
  });
  while (args.at(-1) === "") args.pop();
  return `=${times(`${namespace}${formula.id}(${args.join(",")})`, 1 / out)}`;
}
