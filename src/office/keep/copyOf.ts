import type { Template } from "../../sheet/index.ts";

/** A part of a template that may be written to. */
export type Draft = Record<string, unknown>;

/** A copy of a template to be changed, with the way from each of its parts to its copy. The source of a linked one is shared. */
export class TemplateCopy {
  readonly #copies = new Map<object, Draft | unknown[]>();
  readonly file: Draft;

  constructor(readonly template: Template) {
    this.file = this.#copied(template) as Draft;
  }

  of(part: object): Draft {
    return this.#copies.get(part) as Draft;
  }

  list(part: readonly unknown[]): unknown[] {
    return this.#copies.get(part) as unknown[];
  }

  #copied(value: unknown): unknown {
    if (typeof value !== "object" || value === null) return value;
    if (value === this.template.source?.template) return value;
    const copy = Array.isArray(value)
      ? (value as readonly unknown[]).map((one) => this.#copied(one))
      : Object.fromEntries(Object.entries(value).map(([key, one]) => [key, this.#copied(one)]));
    this.#copies.set(value, copy);
    return copy;
  }
}
