import { version } from "../../core/index.ts";

/**
 * The name that stands for a function in a workbook: its id with the edition, and the version of the calculation. No dot
 * behind KERN, so that no program takes it for a function of the add-in.
 */
export function definedName(id: string): string {
  return `KERN_${id}_V${version.replaceAll(".", "_")}`;
}

/** What programs take for an address: A1, ANY01, R1C1, R, C. */
const likeAddress = [/^[a-z]{1,3}\d+$/i, /^r\d*(c\d*)?$/i, /^c\d*$/i];

/** Words that are no names in a formula. */
const taken = new Set(["TRUE", "FALSE", "PI", "LET", "LAMBDA"]);

/** Names within one formula: allowed in all programs, and apart whatever their case. */
export class LocalNames {
  readonly #names = new Map<string, string>();
  readonly #used = new Set<string>();

  /** The name in formulas for a name of the declaration, always the same. */
  of(name: string): string {
    const known = this.#names.get(name) ?? this.another(name);
    this.#names.set(name, known);
    return known;
  }

  /** A name like this that nothing else has. */
  another(name: string): string {
    let free = likeAddress.some((form) => form.test(name)) || taken.has(name.toUpperCase()) ? `${name}_` : name;
    while (this.#used.has(free.toUpperCase())) free += "_";
    this.#used.add(free.toUpperCase());
    return free;
  }
}
