import type { NativeFunction } from "../values/frame.ts";
import { cannot } from "../values/values.ts";
import { any } from "./define.ts";
import { information } from "./information.ts";
import { logic } from "./logic.ts";
import { lookups } from "./lookup.ts";
import { math } from "./math.ts";
import { statistics } from "./statistics.ts";
import { texts } from "./text.ts";

export { definedKey, ownFunction, type OwnFunctions } from "./own.ts";

/** What changes by itself with every calculation of the program. */
const changing = Object.fromEntries(
  ["NOW", "TODAY", "RAND", "RANDBETWEEN", "RANDARRAY"].map((name): [string, NativeFunction] => [
    name,
    { min: 0, max: any, run: () => cannot(`function ${name}, which gives another value at every calculation`) },
  ]),
);

const all: ReadonlyMap<string, NativeFunction> = new Map(
  Object.entries({ ...logic, ...information, ...math, ...statistics, ...lookups, ...texts, ...changing }),
);

/** A function of the spreadsheet program by its name as typed or stored. */
export function nativeFunction(name: string): NativeFunction | undefined {
  return all.get(name.toUpperCase().replace(/^_XLFN\.(?:_XLWS\.)?/, ""));
}
