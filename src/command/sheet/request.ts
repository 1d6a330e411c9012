import { Refused } from "../../office/index.ts";
import { given, optionsIn } from "../words.ts";

/** The defaults of the office, and what is chosen from them. */
export interface OfficeRequest {
  readonly defaults?: string;
  readonly duct?: string;
  readonly jack?: string;
  /** Files of templates of the office. */
  readonly templateFiles?: readonly string[];
}

/** A template of the office from a sheet that was changed by hand. */
export interface KeepRequest extends Pick<OfficeRequest, "templateFiles"> {
  readonly kind: "keep";
  /** The workbook and the name of its sheet. */
  readonly book: string;
  readonly sheet: string;
  readonly id: string;
  readonly title: string;
  readonly office: string;
  readonly version: string;
  readonly out: string;
  readonly force: boolean;
  /** Ids of rows and columns that may not be changed; those of the sheet's own template where none is given. */
  readonly locked?: readonly string[];
  /** Ids of inputs of which the value on the sheet becomes the default. */
  readonly defaultIds?: readonly string[];
}

/** Many members from a table. */
export interface MembersRequest extends OfficeRequest {
  readonly kind: "members";
  /** The table. */
  readonly members: string;
  /** Of rows that name none. */
  readonly template?: string;
  /** The folder for the sheets. */
  readonly out: string;
  readonly register?: string;
  /** For all members. */
  readonly set: readonly string[];
  readonly link: readonly string[];
  /** Starts from the templates' invented examples. */
  readonly example: boolean;
  readonly force: boolean;
}

/** A table of members to fill in: a column for each input that has to be given. */
export interface TableRequest extends OfficeRequest {
  readonly kind: "table";
  readonly template: string;
  readonly out: string;
  readonly set: readonly string[];
  readonly link: readonly string[];
  readonly force: boolean;
}

/** What a call asks for. */
export type Request =
  | MembersRequest
  | KeepRequest
  | { readonly kind: "help" }
  | { readonly kind: "list"; readonly templateFiles?: readonly string[] }
  /** The inputs of a template, and of linked sheets beside it. */
  | {
      readonly kind: "inputs";
      readonly template: string;
      readonly link: readonly string[];
      readonly templateFiles?: readonly string[];
    }
  | TableRequest
  /** Writes the index of a folder of templates. */
  | { readonly kind: "index"; readonly folder: string }
  | (OfficeRequest & {
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
      /** A copy that computes without the add-in, in place of the sheet. */
      readonly portable: boolean;
      readonly sheetName?: string;
    });

const options = {
  help: { type: "boolean" },
  list: { type: "boolean" },
  inputs: { type: "boolean" },
  template: { type: "string" },
  out: { type: "string" },
  set: { type: "string", multiple: true },
  link: { type: "string", multiple: true },
  members: { type: "string" },
  register: { type: "string" },
  defaults: { type: "string" },
  duct: { type: "string" },
  jack: { type: "string" },
  "template-file": { type: "string", multiple: true },
  "index-templates": { type: "string" },
  "keep-template": { type: "string" },
  sheet: { type: "string" },
  id: { type: "string" },
  title: { type: "string" },
  office: { type: "string" },
  version: { type: "string" },
  lock: { type: "string", multiple: true },
  default: { type: "string", multiple: true },
  example: { type: "boolean" },
  blank: { type: "boolean" },
  force: { type: "boolean" },
  strict: { type: "boolean" },
  portable: { type: "boolean" },
  "sheet-name": { type: "string" },
} as const;

type Values = ReturnType<typeof optionsIn<typeof options>>["values"];

/** Reads the words of a call. Throws Refused where they do not make one. */
export function requestOf(words: readonly string[]): Request {
  const { values, positionals } = optionsIn(words, options);
  if (positionals.length > 0)
    throw new Refused([`“${positionals[0]}” belongs to no option; values are given as --set name=value`]);
  if (values.help) return { kind: "help" };
  if (values["index-templates"] !== undefined) return { kind: "index", folder: values["index-templates"] };
  if (values["keep-template"] !== undefined) return keepRequest(values, values["keep-template"]);
  const stray = keepOptions.find((name) => values[name] !== undefined);
  if (stray !== undefined) throw new Refused([`--${stray} goes with --keep-template`]);
  const files = filesOf(values);
  if (values.list) return { kind: "list", ...files };
  if (values.members !== undefined) return membersRequest(values, values.members);
  if (values.register !== undefined) throw new Refused(["--register goes with --members"]);
  const {
    template,
    out,
    set = [],
    link = [],
    blank = false,
    example = false,
    force = false,
    strict = false,
    portable = false,
    "sheet-name": sheetName,
  } = values;
  if (values.inputs && template !== undefined && out !== undefined) {
    if (!/\.csv$/i.test(out))
      throw new Refused([`--out = “${out}” does not end in .csv: with --inputs it is a table of members to fill in`]);
    const faults = officeFaults(values);
    if (faults.length > 0) throw new Refused(faults);
    return { kind: "table", template, out, set, link, force, ...officeOf(values), ...files };
  }
  if (values.inputs && template !== undefined) return { kind: "inputs", template, link, ...files };
  const faults = [
    ...(template === undefined ? ["--template is missing: the id of a template, as --list says it"] : []),
    ...(out === undefined && !values.inputs
      ? ["--out is missing: the file to write, such as beam.xlsx"]
      : values.inputs || /\.xlsx$/i.test(out!)
        ? []
        : [`--out = “${out}” does not end in .xlsx`]),
    ...(blank && example ? ["--blank and --example exclude each other"] : []),
    ...officeFaults(values),
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
    portable,
    ...given({ sheetName }),
    ...officeOf(values),
    ...files,
  };
}

function officeFaults({ defaults, duct, jack }: OfficeRequest): readonly string[] {
  const alone = duct === undefined ? jack : duct;
  return defaults === undefined && alone !== undefined ? ["--duct and --jack choose from the file of --defaults"] : [];
}

const officeOf = ({ defaults, duct, jack }: Values): OfficeRequest => given({ defaults, duct, jack });

const filesOf = (values: Values): Pick<OfficeRequest, "templateFiles"> =>
  given({ templateFiles: values["template-file"] });

const keepOptions = ["sheet", "id", "title", "office", "version", "lock", "default"] as const;

const idsIn = (text: string): readonly string[] =>
  text
    .split(",")
    .map((id) => id.trim())
    .filter((id) => id !== "");

function keepRequest(values: Values, book: string): KeepRequest {
  const { sheet = "", id = "", title = "", office = "", version = "", out = "", force = false } = values;
  const needed = { sheet, id, title, office, version, out };
  const missing = Object.entries(needed).flatMap(([name, value]) =>
    value.trim() === "" ? [`--${name} is missing: --keep-template needs it`] : [],
  );
  const faults = [
    ...missing,
    ...(id !== "" && !/^[a-z0-9]+(-[a-z0-9]+)+$/.test(id)
      ? [`--id ${id}: it has words of small letters and digits with “-” between, two at least, such as my-beam`]
      : []),
    ...(version !== "" && !/^\d+\.\d+\.\d+$/.test(version)
      ? [`--version ${version}: it has three numbers, such as 1.0.0`]
      : []),
    ...(out !== "" && !out.toLowerCase().endsWith(".json") ? [`--out ${out}: a template's file ends in .json`] : []),
  ];
  if (faults.length > 0) throw new Refused(faults);
  const [locked, defaultIds] = [values.lock, values.default].map((texts) => texts?.flatMap(idsIn));
  return { kind: "keep", book, ...needed, force, ...given({ locked, defaultIds }), ...filesOf(values) };
}

function membersRequest(values: Values, table: string): MembersRequest {
  const { template, out, register, set = [], link = [], example = false, force = false } = values;
  const alone = (["portable", "inputs"] as const).filter((name) => values[name]);
  const faults = [
    ...alone.map((name) => `--${name} does not go with --members`),
    ...(out === undefined ? ["--out is missing: the folder for the sheets of the members"] : []),
    ...(out !== undefined && /\.xlsx$/i.test(out) ? [`--out = “${out}” is a file; with --members name a folder`] : []),
    ...(register !== undefined && !/\.(csv|xlsx)$/i.test(register)
      ? [`--register = “${register}” ends neither in .csv nor in .xlsx`]
      : []),
    ...(values["sheet-name"] === undefined
      ? []
      : ["--sheet-name does not go with --members: sheets take the members' names"]),
    ...(example && values.blank ? ["--blank and --example exclude each other"] : []),
    ...officeFaults(values),
  ];
  if (faults.length > 0) throw new Refused(faults);
  return {
    kind: "members",
    members: table,
    out: out!,
    set,
    link,
    example,
    force,
    ...given({ template, register }),
    ...officeOf(values),
    ...filesOf(values),
  };
}
