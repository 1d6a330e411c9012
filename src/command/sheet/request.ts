import { reasonOf } from "../../core/index.ts";
import { parseArgs } from "node:util";

/** What a call asks for. */
export type Request =
  | { readonly kind: "help" }
  | { readonly kind: "list" }
  | { readonly kind: "inputs"; readonly template: string }
  | {
      readonly kind: "write";
      readonly template: string;
      readonly out: string;
      /** `name=value` as given, in order. */
      readonly set: readonly string[];
      /** Linked sheets in the same file: ids of templates, or their beginning. */
      readonly link: readonly string[];
      readonly blank: boolean;
      readonly force: boolean;
      /** End with a status of its own where the overall verdict is not OK. */
      readonly strict: boolean;
      readonly sheetName?: string;
    };

/** A call, an input or a value that cannot be taken: every message a line. */
export class Refused extends Error {
  override readonly name = "Refused";
  constructor(readonly messages: readonly string[]) {
    super(messages.join("\n"));
  }
}

const options = {
  help: { type: "boolean" },
  list: { type: "boolean" },
  inputs: { type: "boolean" },
  template: { type: "string" },
  out: { type: "string" },
  set: { type: "string", multiple: true },
  link: { type: "string", multiple: true },
  example: { type: "boolean" },
  blank: { type: "boolean" },
  force: { type: "boolean" },
  strict: { type: "boolean" },
  "sheet-name": { type: "string" },
} as const;

function parsed(words: readonly string[]) {
  try {
    return parseArgs({ args: [...words], options, allowPositionals: true });
  } catch (error) {
    throw new Refused([reasonOf(error)]);
  }
}

/** Reads the words of a call. Throws Refused where they do not make one. */
export function requestOf(words: readonly string[]): Request {
  const { values, positionals } = parsed(words);
  if (positionals.length > 0)
    throw new Refused([`“${positionals[0]}” belongs to no option; values are given as --set name=value`]);
  if (values.help) return { kind: "help" };
  if (values.list) return { kind: "list" };
  const {
    template,
    out,
    set = [],
    link = [],
    blank = false,
    example = false,
    force = false,
    strict = false,
    "sheet-name": sheetName,
  } = values;
  if (values.inputs && template !== undefined) return { kind: "inputs", template };
  const faults = [
    ...(template === undefined ? ["--template is missing: the id of a template, as --list says it"] : []),
    ...(out === undefined && !values.inputs
      ? ["--out is missing: the file to write, such as beam.xlsx"]
      : values.inputs || /\.xlsx$/i.test(out!)
        ? []
        : [`--out = “${out}” does not end in .xlsx`]),
    ...(blank && example ? ["--blank and --example exclude each other"] : []),
  ];
  if (faults.length > 0) throw new Refused(faults);
  return {
    kind: "write",
    template: template!,
    out: out!,
    set,
    link,
    blank,
    force,
    strict,
    ...(sheetName !== undefined && { sheetName }),
  };
}
