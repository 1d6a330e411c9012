import type { Template } from "./template.ts";

interface Kept<T> {
  readonly byKey: Map<string, Kept<T>>;
  readonly key: string;
  readonly made: T;
}

/**
 * What follows from a template, what it is built beside, and a key: worked out once, and forgotten where it was not
 * asked for longest. Templates are data that nobody changes.
 */
export class KeptByTemplate<T> {
  readonly #byTemplate = new WeakMap<Template, WeakMap<object, Map<string, Kept<T>>>>();
  /** The one asked for last stands last. */
  readonly #recent = new Set<Kept<T>>();

  /** One takes tens of megabytes. A workbook seldom has sheets of more configurations than 24 at once. */
  constructor(public most = 24) {}

  of(template: Template, beside: object, key: string, make: () => T): T {
    const ofTemplate = this.#byTemplate.get(template) ?? new WeakMap<object, Map<string, Kept<T>>>();
    this.#byTemplate.set(template, ofTemplate);
    const byKey = ofTemplate.get(beside) ?? new Map<string, Kept<T>>();
    ofTemplate.set(beside, byKey);
    const kept = byKey.get(key) ?? { byKey, key, made: make() };
    byKey.set(key, kept);
    this.#recent.delete(kept);
    this.#recent.add(kept);
    if (this.#recent.size > this.most) this.#forget(this.#recent.values().next().value!);
    return kept.made;
  }

  #forget(kept: Kept<T>): void {
    this.#recent.delete(kept);
    kept.byKey.delete(kept.key);
  }
}
