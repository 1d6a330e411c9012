import { onSource, rootId, type Template } from "../sheet/index.ts";
import { catalogue, loadTemplate, type TemplateEntry } from "./catalogue.ts";

/** Templates of an office that were loaded, by id: checked by whoever loaded them. */
const loaded = new Map<string, Template>();
/** For each of them the linked ones of the template that it was made from, on this one. */
const linked = new Map<string, readonly Template[]>();

/** Templates of an office that were loaded; none where nobody has loaded one. */
export const officeTemplates = (): readonly Template[] => [...loaded.values()];

/** Every template of theirs that takes values from a sheet of another. */
export const officeLinked = (): readonly Template[] => [
  ...officeTemplates().filter(({ source }) => source),
  ...[...linked.values()].flat(),
];

const ofOffices = (id: string): Template | undefined =>
  [...officeTemplates(), ...officeLinked()].find((template) => template.id === id);

/** Whether sheets of this template are known here: it is shipped, or an office's that was loaded. */
export const isKnownTemplate = (id: string): boolean =>
  catalogue.some((entry) => entry.id === id) || ofOffices(id) !== undefined;

/** Throws where there is no template of this id. */
export async function loadKnownTemplate(id: string): Promise<Template> {
  const shipped = catalogue.some((entry) => entry.id === id);
  return (shipped ? undefined : ofOffices(id)) ?? loadTemplate(id);
}

/** Ids of the templates that take values from a sheet of this one. */
export const linkedIdsOf = (id: string): readonly string[] => [
  ...catalogue.flatMap((entry) => (entry.source === id ? [entry.id] : [])),
  ...officeLinked().flatMap((template) => (template.source!.template.id === id ? [template.id] : [])),
];

/** What lists say of a template of an office; `root`: the shipped one that it was made from. */
export function officeEntry(template: Template): TemplateEntry {
  const { id, version, title, line, standard, source, office, madeFrom } = template;
  const root = rootId(template);
  return {
    ...{ id, version, title, line, standard },
    ...(source && { source: source.template.id }),
    ...(catalogue.some((entry) => entry.id === root && entry.choosing) && { choosing: true }),
    ...(office !== undefined && { office }),
    ...(madeFrom && { root }),
  };
}

/** Another of the same id takes its place. */
export async function addOfficeTemplate(template: Template): Promise<void> {
  const on = await linkedOn(template);
  loaded.set(template.id, template);
  linked.set(template.id, on);
}

export function removeOfficeTemplate(id: string): void {
  loaded.delete(id);
  linked.delete(id);
}

/** The linked sheets of the shipped template, for sheets of the office's. */
async function linkedOn(template: Template): Promise<readonly Template[]> {
  const root = template.source ? undefined : template.madeFrom?.template;
  const ids = catalogue.flatMap(({ id, source }) => (root !== undefined && source === root ? [id] : []));
  return Promise.all(
    ids.map(async (id) => onSource(await loadTemplate(id), template, `${template.id}-${id.replace(`-${root!}`, "")}`)),
  );
}
