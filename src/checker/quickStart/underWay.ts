import type { Template } from "../../sheet/index.ts";
import type { Answers } from "./answers.ts";
import { fromAnswers, type QuickStart } from "./fromAnswers.ts";
import type { Steps } from "./steps.ts";

/** The last one begun for a template; its result may be asked for again, as after a build that was cancelled. */
const begun = new WeakMap<Template, UnderWay>();

/** A quick start that may have begun while questions were still open, and ends when its result is asked for. */
export class UnderWay {
  readonly #steps: Steps<QuickStart>;
  #result: QuickStart | undefined;

  constructor(
    private readonly template: Template,
    readonly answers: Answers,
  ) {
    this.#steps = fromAnswers(template, answers);
  }

  /** Whether no other answers were begun with since. */
  get isLatest(): boolean {
    return begun.get(this.template) === this;
  }

  /** Goes on by a step; the result once it is there. Throws what the answers are refused for, and does so again when begun anew. */
  step(): QuickStart | undefined {
    if (this.#result) return this.#result;
    try {
      const { done, value } = this.#steps.next();
      if (done) this.#result = value;
    } catch (error) {
      if (this.isLatest) begun.delete(this.template);
      throw error;
    }
    return this.#result;
  }

  result(): QuickStart {
    for (;;) {
      const result = this.step();
      if (result) return result;
    }
  }
}

/** Whether two say the same. */
function sameAnswers(one: Answers, other: Answers): boolean {
  const [a, b] = [new Map(Object.entries(one)), new Map(Object.entries(other))];
  return [...new Set([...a.keys(), ...b.keys()])].every((id) => Object.is(a.get(id), b.get(id)));
}

/** What these answers will be asked for; begun, where it was not yet. */
export function underWay(template: Template, answers: Answers): UnderWay {
  const before = begun.get(template);
  if (before && sameAnswers(before.answers, answers)) return before;
  const work = new UnderWay(template, answers);
  // What a sheet for choosing and sizing has found is taken at once; nobody begins it ahead.
  if (!answers.sizing) begun.set(template, work);
  return work;
}

/** The whole of it, from where it stands. */
export function quickStart(template: Template, answers: Answers): QuickStart {
  return underWay(template, answers).result();
}
