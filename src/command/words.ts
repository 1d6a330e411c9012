import { parseArgs, type ParseArgsConfig } from "node:util";
import { reasonOf } from "../core/index.ts";
import { Refused } from "../office/index.ts";
import { NotWritten } from "./writeSafely.ts";

/** The options of a call. Throws Refused where a word is none of them. */
export function optionsIn<T extends NonNullable<ParseArgsConfig["options"]>>(words: readonly string[], options: T) {
  try {
    return parseArgs({ args: [...words], options, allowPositionals: true });
  } catch (error) {
    throw new Refused([reasonOf(error)]);
  }
}

/** The options that a call gave, without those it left out. */
export function given<T extends object>(options: T): { readonly [K in keyof T]?: Exclude<T[K], undefined> } {
  const there = Object.entries(options).filter(([, value]) => value !== undefined);
  return Object.fromEntries(there) as { readonly [K in keyof T]?: Exclude<T[K], undefined> };
}

/** Says why a command ended without its file, and gives its exit status. Throws any other error again. */
export function endOf(error: unknown, complain: (line: string) => void): 1 | 2 {
  if (error instanceof NotWritten) {
    complain(error.message);
    return 2;
  }
  if (!(error instanceof Refused)) throw error;
  for (const message of error.messages) complain(message);
  complain("Nothing was written. Try --help.");
  return 1;
}
