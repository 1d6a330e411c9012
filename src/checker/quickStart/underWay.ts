import type { Template } from "../../sheet/index.ts";
import type { Answers } from "./answers.ts";
import { fromAnswers, type QuickStart } from "./fromAnswers.ts";
import type { Steps } from "./steps.ts";

/** A quick start that may have begun while questions were still open, and ends when its result is asked for. */
class UnderWay {
  readonly #steps: Steps<QuickStart>;
  #result: QuickStart | undefined;

  constructor(
    template: Template,
    readonly answers: Answers,
  ) {
    this.#steps = fromAnswers(template, answers);
  }

  /** Goes on by a step; the result once it is there. */
  step(): QuickStart | undefined {
    if (this.#result) return this.#result;
    const { done, value } = this.#steps.next();
    if (done) this.#result = value;
    return this.#result;
  }

  result(): QuickStart {
    for (;;) {
      const result = this.step();
      if (result) return result;
    }
  }
}

/** The last one begun for a template whose result was not asked for yet. */
const begun = new WeakMap<Template, UnderWay>();

/** Whether two say the same; what a sheet for choosing and sizing has found is never begun ahead. */
const sameAnswers = (one: Answers, other: Answers): boolean =>
  !one.sizing &&
  !other.sizing &&
  JSON.stringify(Object.entries(one).sort()) === JSON.stringify(Object.entries(other).sort());

function underWay(template: Template, answers: Answers): UnderWay {
  const before = begun.get(template);
  return before && sameAnswers(before.answers, answers) ? before : new UnderWay(template, answers);
}

/** A step of what these answers will be asked for; its result once there is nothing left to do. Throws what they are refused for. */
export function stepAhead(template: Template, answers: Answers): QuickStart | undefined {
  const work = underWay(template, answers);
  // What fails is begun anew, so that it fails again with its message.
  begun.delete(template);
  const result = work.step();
  begun.set(template, work);
  return result;
}

/** The whole of it, from where it stands. */
export function quickStart(template: Template, answers: Answers): QuickStart {
  const work = underWay(template, answers);
  begun.delete(template);
  return work.result();
}
