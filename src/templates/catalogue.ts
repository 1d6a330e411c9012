/**
 * The templates without what is in them: enough to choose one; what it holds loads when it is asked for. Pages have this
 * file from the build, with one part to load for each template (`src/command/templateParts.ts`).
 */
import type { Template } from "../sheet/index.ts";
import { allTemplates, choosingTemplates } from "./index.ts";

/** What is known of a template before it is loaded. */
export interface TemplateEntry extends Pick<Template, "id" | "version" | "title" | "line" | "standard"> {
  /** Of a linked template: the id of the template that it takes from. */
  readonly source?: string;
  /** Stands before a stress check. */
  readonly choosing?: true;
  /** Of an office's: who answers for it, and the shipped template that it was made from. */
  readonly office?: string;
  readonly root?: string;
}

function entryOf(template: Template): TemplateEntry {
  const { id, version, title, line, standard, source } = template;
  return {
    ...{ id, version, title, line, standard },
    ...(source && { source: source.template.id }),
    ...(choosingTemplates.includes(template) && { choosing: true }),
  };
}

/** The stress checks, then the sheets that take values from one of these; each in the order people choose from. */
export const catalogue: readonly TemplateEntry[] = allTemplates.map(entryOf);

/** Throws where there is no template of this id. */
export function loadTemplate(id: string): Promise<Template> {
  const found = allTemplates.find((template) => template.id === id);
  return found ? Promise.resolve(found) : Promise.reject(new Error(`there is no template ${id}`));
}
