import schema from "./defaults.schema.json";

/** What a validator of JSON schemas says of one place. */
interface SchemaError {
  readonly keyword: string;
  readonly instanceLocation: string;
  readonly error: string;
}

/** Errors that only say that something inside is wrong, which is said there. */
const wrappers: ReadonlySet<string> = new Set(["properties", "items", "$ref", "additionalProperties"]);

/** What a text has to look like, by the field; all others are one line of text. */
const forms: Readonly<Record<string, string>> = {
  date: "a date such as 2026-11-30",
  enteredOn: "a date such as 2026-11-30",
  id: "the id of an input: letters, digits and _, a letter first",
  standard: "the end of a template's id, such as is1343-2012",
};

const kinds: Readonly<Record<string, string>> = {
  string: "a text in quotation marks",
  number: "a number",
  object: "fields in { }",
  array: "a list in [ ]",
};

const shown = (value: unknown): string => {
  if (typeof value === "string") return `“${value.length > 60 ? `${value.slice(0, 60)}…` : value}”`;
  if (typeof value !== "object" || value === null) return String(value);
  return Array.isArray(value) ? "a list" : "fields in { }";
};

const stepsOf = (location: string): readonly string[] =>
  location
    .split("/")
    .slice(1)
    .map((step) => decodeURIComponent(step).replaceAll("~1", "/").replaceAll("~0", "~"));

const within = (value: unknown, step: string): unknown =>
  typeof value === "object" && value !== null ? (value as Readonly<Record<string, unknown>>)[step] : undefined;

/** "numbers 1, values 2, unit": lists counted from 1; with the id of what stands there, where it has one. */
function placeOf(file: unknown, steps: readonly string[]): string {
  const parts: string[] = [];
  let value = file;
  for (const step of steps) {
    value = within(value, step);
    if (!/^\d+$/.test(step) || parts.length === 0) {
      parts.push(step);
      continue;
    }
    const named = within(value, "id") ?? within(value, "name") ?? within(value, "standard");
    parts[parts.length - 1] += ` ${Number(step) + 1}${typeof named === "string" ? ` (${named})` : ""}`;
  }
  return parts.join(", ");
}

/** The fields that may stand at a place of the schema that forbids others. */
function fieldsAt(steps: readonly string[]): readonly string[] {
  const resolved = (part: unknown): unknown => {
    const ref = within(part, "$ref");
    return typeof ref === "string" ? stepsOf(ref).reduce(within, schema) : part;
  };
  const at = steps.reduce<unknown>((part, step) => {
    const here = resolved(part);
    return within(within(here, "properties"), step) ?? within(here, "items");
  }, schema);
  return Object.keys(within(resolved(at), "properties") ?? {}).filter((name) => name !== "$schema");
}

function saidOf(file: unknown, { keyword, instanceLocation, error }: SchemaError): string {
  const steps = stepsOf(instanceLocation);
  const place = placeOf(file, steps);
  const value = steps.reduce(within, file);
  const last = steps.at(-1) ?? "";
  const quoted = [...error.matchAll(/"([^"]*)"/g)].map((match) => match[1]!);
  const limit = /[<>] (\d+)/.exec(error)?.[1];
  const start = place === "" ? "the file" : `${place} = ${shown(value)}`;
  switch (keyword) {
    case "required":
      return `${place || "the file"}: “${quoted[0]}” is missing`;
    case "false":
      return `${place}: there is no such field; allowed: ${fieldsAt(steps.slice(0, -1)).join(", ")}`;
    case "type": {
      // The type found comes first, then those that are allowed.
      const wanted = quoted.slice(1).map((kind) => kinds[kind] ?? kind);
      return `${start}; allowed: ${wanted.join(" or ")}`;
    }
    case "pattern":
      return `${start}; allowed: ${forms[last] ?? "one line of text"}`;
    case "const":
      return `${start}; allowed: ${quoted.map((text) => `“${text}”`).join(", ")}`;
    case "minLength":
      return last === "unit" ? `${start}; allowed: a unit, “–” for a number without one` : `${start} is empty`;
    case "maxLength":
      return `${start}; allowed: at most ${limit} characters`;
    case "minItems":
      return `${place} is empty; allowed: at least ${limit}`;
    case "maxItems":
      return `${place} is too long; allowed: at most ${limit}`;
    default:
      return `${place || "the file"}: ${error}`;
  }
}

/** Why a file has not the shape of a file of defaults, a sentence each: place, value and what is allowed. */
export function shapeFaults(file: unknown, errors: readonly SchemaError[]): readonly string[] {
  return errors.filter(({ keyword }) => !wrappers.has(keyword)).map((one) => saidOf(file, one));
}
