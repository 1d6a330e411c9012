import type { Result, WorksheetFunction } from "../../functions/index.ts";
import type { Argument, Parameter } from "../../src/core/index.ts";
import { isAllowedIn, isOfThisWorld } from "./allowed.ts";

/** The program on one platform shows this many characters of an error's text, so what matters must stand within them. */
const shownCharacters = 255;
/** Characters a cell holds. */
const cellCharacters = 32767;

const plain = (symbol: string): string => symbol.replace(/_/g, "");

/** How a message can name a parameter: by its symbol, its name or a column of its range, also as a choice makes it. */
function namesOf(name: string, p: Parameter): readonly string[] {
  return [p, ...Object.values(p.varies?.as ?? {})].flatMap((one) => namesAsOne(name, one));
}

function namesAsOne(name: string, p: Parameter): readonly string[] {
  const tables = p.kind === "table" ? [p, ...Object.values(p.kinds?.tables ?? {})] : [];
  const columns = tables.flatMap((t) => Object.entries(t.columns).flatMap(([n, c]) => [n, plain(c.symbol), c.text]));
  return [name, plain(p.symbol), p.text, ...columns];
}

/** As a word of its own: nearly every message has an x or a k in it. */
function standsIn(message: string, text: string): boolean {
  const at = message.indexOf(text);
  if (at < 0) return false;
  const apart = (character: string | undefined): boolean => character === undefined || !/[\p{L}\d_]/u.test(character);
  return (
    (apart(message[at - 1]) && apart(message[at + text.length])) || standsIn(message.slice(at + text.length), text)
  );
}

function namesAnArgument(f: WorksheetFunction, message: string): boolean {
  return f.parameters.some(({ name, parameter }) => namesOf(name, parameter).some((text) => standsIn(message, text)));
}

/** Words that no user should read; what a message quotes is the user's own. */
export function speaksOfTheInside(text: string): boolean {
  return /\bNaN\b|\bundefined\b|\[object|internal error/.test(text.replace(/“[^”]*”/g, ""));
}

function faultOfValue(f: WorksheetFunction, value: unknown): string | undefined {
  if (typeof value === "string") {
    if (f.result !== "string") return "a text where a number is promised";
    if (value.length > cellCharacters) return `a text of ${value.length} characters does not fit a cell`;
    // A mark repeats the words it was given.
    if (f.id !== "CHECKED" && speaksOfTheInside(value)) return `a text that speaks of the program's inside: ${value}`;
    return undefined;
  }
  const numbers = Array.isArray(value) ? (value as readonly (readonly unknown[])[]).flat() : [value];
  if (numbers.some((n) => typeof n !== "number" || !Number.isFinite(n))) return "a value that is not a finite number";
  if (Array.isArray(value) !== ((f.result as string) === "rows"))
    return "rows where a number is promised, or the other way round";
  if (
    Array.isArray(value) &&
    (value.length === 0 || new Set((value as readonly unknown[][]).map((row) => row.length)).size !== 1)
  )
    return "rows of unequal length or none at all";
  return undefined;
}

/** What is wrong with the answer to a call; undefined where nothing is. */
export function faultOf(f: WorksheetFunction, args: readonly Argument[], result: Result): string | undefined {
  const declared = f.parameters.at(-1)?.repeating ? f.parameters.slice(0, -1) : f.parameters;
  const tooMany = !f.parameters.at(-1)?.repeating && args.length > declared.length;
  const wrong = declared.find((_, i) => !isAllowedIn(declared, args, i));
  if ("value" in result) {
    if (wrong && f.id !== "WARNINGS") return `a value although ${wrong.name} is outside what its declaration allows`;
    if (tooMany && f.id !== "VERSION") return "a value although there are too many arguments";
    return faultOfValue(f, result.value);
  }
  const { code, message } = result.error;
  if (message.startsWith("internal error")) return message;
  if (message.length > shownCharacters)
    return `a message of ${message.length} characters; ${shownCharacters} are shown`;
  if (speaksOfTheInside(message)) return `a message that speaks of the program's inside: ${message}`;
  if (code === "#NUM!") {
    if (wrong || tooMany)
      return `no refusal although ${wrong?.name ?? "the number of arguments"} is outside what is allowed: ${message}`;
    // Beyond what the computer counts, no single argument is to blame.
    if (/no finite result/.test(message))
      return args.every(isOfThisWorld) ? "no finite result for numbers of this world" : undefined;
    return namesAnArgument(f, message) ? undefined : `a refusal that names no argument: ${message}`;
  }
  if (tooMany)
    return /takes \d+ arguments?; \d+ were given/.test(message)
      ? undefined
      : `a message that does not speak of the number of arguments: ${message}`;
  return namesAnArgument(f, message) ? undefined : `a message that names no argument: ${message}`;
}
