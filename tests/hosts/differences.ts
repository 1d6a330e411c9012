import { isDeepStrictEqual } from "node:util";
import { agreedNumber } from "../../src/core/seal.ts";
import type { Picture } from "./picture.ts";

/** Numbers count as far as a checker's seal takes them: hosts differ in the last digits of the same calculation. */
const oneZero = (_key: string, value: unknown): unknown => (typeof value === "number" ? agreedNumber(value) : value);
const plain = (value: unknown): unknown =>
  value === undefined ? undefined : JSON.parse(JSON.stringify(value, oneZero));
const say = (value: unknown): string => (value === undefined ? "nothing" : JSON.stringify(value, oneZero));

/** The same to the last digit and letter: nearly all of two pictures is, and looking takes a fraction of making both plain. */
function identical(found: unknown, expected: unknown): boolean {
  if (found === expected) return true;
  if (typeof found !== "object" || typeof expected !== "object" || found === null || expected === null) return false;
  if (Array.isArray(found) !== Array.isArray(expected)) return false;
  const keys = Object.keys(found);
  return (
    keys.length === Object.keys(expected).length &&
    keys.every(
      (key) =>
        Object.hasOwn(expected, key) &&
        identical((found as Record<string, unknown>)[key], (expected as Record<string, unknown>)[key]),
    )
  );
}

const same = (found: unknown, expected: unknown): boolean =>
  identical(found, expected) || isDeepStrictEqual(plain(found), plain(expected));

function entries(
  where: string,
  found: Readonly<Record<string, unknown>>,
  expected: Readonly<Record<string, unknown>>,
): string[] {
  return [...new Set([...Object.keys(found), ...Object.keys(expected)])].flatMap((key) =>
    same(found[key], expected[key]) ? [] : [`${where} ${key}: ${say(found[key])} instead of ${say(expected[key])}`],
  );
}

const withoutPrompts = (validations: Picture["validations"]): Picture["validations"] =>
  Object.fromEntries(Object.entries(validations).map(([key, { prompt: _prompt, ...rest }]) => [key, rest]));

/**
 * Where two pictures differ, cell by cell. What one of the hosts cannot show at all (print, charts, highlights,
 * prompts) is not compared.
 */
export function differences(found: Picture, expected: Picture): readonly string[] {
  const both =
    Object.values(found.validations).every(({ prompt }) => prompt) &&
    Object.values(expected.validations).every(({ prompt }) => prompt);
  const cells = [...new Set([...Object.keys(found.cells), ...Object.keys(expected.cells)])].flatMap((cell) =>
    entries(cell, { ...found.cells[cell] }, { ...expected.cells[cell] }),
  );
  const optional = (["highlights", "print", "charts"] as const).flatMap((key) =>
    found[key] && expected[key] ? entries(key, { ...found[key] }, { ...expected[key] }) : [],
  );
  return [
    ...cells,
    ...entries("name", found.names, expected.names),
    ...(both
      ? entries("validation", found.validations, expected.validations)
      : entries("validation", withoutPrompts(found.validations), withoutPrompts(expected.validations))),
    ...entries(
      "sheet",
      { protected: found.protected, freeze: found.freeze, spans: [...found.spans].sort(), widths: found.widths },
      {
        protected: expected.protected,
        freeze: expected.freeze,
        spans: [...expected.spans].sort(),
        widths: expected.widths,
      },
    ),
    ...optional,
  ];
}
