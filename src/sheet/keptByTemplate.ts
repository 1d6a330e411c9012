import type { Template } from "./template.ts";

/** So many for each template and source: a book seldom has sheets of more configurations. */
const most = 16;

/** What follows from a template, what it is built beside, and a key: worked out once. Templates are data that nobody changes. */
export class KeptByTemplate<T> {
  readonly #kept = new WeakMap<Template, WeakMap<object, Map<string, T>>>();

  of(template: Template, beside: object, key: string, make: () => T): T {
    const ofTemplate = this.#kept.get(template) ?? new WeakMap<object, Map<string, T>>();
    this.#kept.set(template, ofTemplate);
    const kept = ofTemplate.get(beside) ?? new Map<string, T>();
    ofTemplate.set(beside, kept);
    const before = kept.get(key);
    if (before !== undefined) return before;
    const made = make();
    if (kept.size >= most) kept.delete(kept.keys().next().value!);
    kept.set(key, made);
    return made;
  }
}
