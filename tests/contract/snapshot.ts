import { readFileSync } from "node:fs";
import { worksheetFunctions, type WorksheetFunction } from "../../functions/index.ts";
import type { Parameter } from "../../src/core/index.ts";

export const snapshotFile = new URL("functions.snapshot.json", import.meta.url);

/** What an old workbook relies on: the id, and each argument's name, place and unit. */
export interface Promised {
  readonly id: string;
  readonly arguments: readonly string[];
  readonly result: string;
}

function says(p: Parameter): string {
  switch (p.kind) {
    case "number": return p.unit;
    case "choice": return p.values.map(({ value }) => value).join(" | ");
    case "table": return `range of ${Object.entries(p.columns).map(([name, column]) => `${name}: ${says(column)}`).join(", ")}`;
    case "text": return "text";
  }
}

export function promisedBy({ id, parameters, formula, result }: WorksheetFunction): Promised {
  return { id, arguments: parameters.map(({ name, parameter, repeating }) => `${name}: ${says(parameter)}${repeating ? ", repeated" : ""}`), result: formula ? formula.result.unit : result === "string" ? "text" : result };
}

export const promises = (): readonly Promised[] => worksheetFunctions.map(promisedBy);

export const kept = (): readonly Promised[] => JSON.parse(readFileSync(snapshotFile, "utf8")) as readonly Promised[];

/** Promises that the present functions break: a function gone, or an argument gone, moved or in another unit. New arguments at the end break nothing. */
export function broken(old: readonly Promised[], now: readonly Promised[]): readonly string[] {
  return old.flatMap(({ id, arguments: before, result }) => {
    const today = now.find((f) => f.id === id);
    if (!today) return [`${id} is gone`];
    const changed = before.flatMap((text, i) => (today.arguments[i] === text ? [] : [`${id}: argument ${i + 1} was “${text}”, now ${today.arguments[i] === undefined ? "gone" : `“${today.arguments[i]}”`}`]));
    return result === today.result ? changed : [...changed, `${id}: the result was in ${result}, now in ${today.result}`];
  });
}
