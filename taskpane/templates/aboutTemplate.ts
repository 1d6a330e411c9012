import { idOfName, type About, type KeptSheet } from "../../src/office/index.ts";
import type { Recognised } from "../../src/checker/index.ts";
import { catalogue } from "../../src/templates/catalogue.ts";
import { byVersion } from "./loaded.ts";

/** What whoever keeps a template types. */
export interface TypedAbout {
  readonly id: string;
  readonly name: string;
  readonly version: string;
  readonly office: string;
}

/** What stands in the form at first: of a sheet of an office's template the same with the next version. */
export function firstAbout({ template, snapshot }: Pick<Recognised, "template" | "snapshot">): TypedAbout {
  const { id, title, version, office } = template;
  if (office === undefined) return { id: idOfName(snapshot.sheet), name: snapshot.sheet, version: "1.0.0", office: "" };
  const [major = 1, minor = 0] = version.split(".").map(Number);
  return { id, name: title, version: `${major}.${minor + 1}.0`, office };
}

/** What is wrong with what was typed, by field. */
export function problemsOfAbout(
  { id, name, version, office }: TypedAbout,
  { template }: Pick<Recognised, "template">,
): Partial<Readonly<Record<keyof TypedAbout, string>>> {
  const out: Partial<Record<keyof TypedAbout, string>> = {};
  if (!/^[a-z0-9][a-z0-9-]*$/.test(id))
    out.id = `“${id}” is no id: small letters a to z, digits and “-”, as in my-beam.`;
  else if (catalogue.some((entry) => entry.id === id))
    out.id = `${id} is the id of a shipped template: give the template an id of its own.`;
  if (name.trim() === "") out.name = "The title is empty: type what the template is called in lists.";
  if (office.trim() === "") out.office = "The office is empty: type who answers for the template.";
  if (!/^\d+\.\d+\.\d+$/.test(version)) out.version = `“${version}” is no version: three numbers, as in 1.0.0.`;
  else if (id === template.id && byVersion(version, template.version) <= 0)
    out.version = `The sheet is of version ${template.version} of this template: give a higher version, or another id.`;
  return out;
}

/** A row or column that may be locked. */
export interface Lockable {
  readonly id: string;
  readonly text: string;
}

/** Rows and columns of the sheet, those added by hand too, in the order of the sheet. */
export function lockables({ plan }: Pick<Recognised, "plan">, { rows }: Pick<KeptSheet, "rows">): readonly Lockable[] {
  const out = new Map<string, string>();
  for (const { id, item, description } of plan.meanings) if (!out.has(id)) out.set(id, `${item} ${description}`.trim());
  for (const { kind, id, label } of rows) {
    if (kind === "added" && id !== undefined) out.set(id, `added: ${label}`);
    if (kind === "left out" && id !== undefined) out.delete(id);
  }
  return [...out].map(([id, text]) => ({ id, text }));
}

/** Id, title, version and office of the template, from the fields of the form. */
export function aboutOf(
  { id, name, version, office }: TypedAbout,
  locked: ReadonlySet<string>,
  defaults: ReadonlySet<string>,
): About {
  return { id, name: name.trim(), version, office: office.trim(), locked: [...locked], defaults };
}

export const fileOf = ({ id, version }: Pick<TypedAbout, "id" | "version">): string => `${id}-${version}.json`;
