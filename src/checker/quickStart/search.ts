import { isPost } from "../../sheet/index.ts";
import { assembled } from "./allInputs.ts";
import { guessed, layoutFor } from "./firstGuess.ts";
import type { Layout } from "./layout.ts";
import { loosened, memberOf } from "./member.ts";
import { rowsFor } from "./nextRows.ts";
import { tendonsFor } from "./nextTendons.ts";
import { computed } from "./sections.ts";
import { sizedBy } from "./sizedBy.ts";
import type { Steps } from "./steps.ts";
import { oneFewer, steelOf, type Steel } from "./steel.ts";
import type { Task } from "./task.ts";
import { side } from "./tendonLayout.ts";
import type { Failing, Trial } from "./trial.ts";
import { Tried } from "./tried.ts";

/** So many proposals are computed on their own sheets before the best of them is given. */
const mostTries = 10;

/** So many of them from the cheapest up; after that any that was not computed yet. */
const cheapestFirst = 5;

/** Distance kept from the limits while stressing, MPa: what is stressed then varies more along the member. */
const sparing = 0.2;

const whileStressing: ReadonlySet<string> = new Set(["uStepC", "uStepT"]);

/**
 * By how much the limits are loosened, MPa, to look for the next proposal where no more keeps them: what a sheet
 * computed with other steel says of losses is not yet what its own sheet will say.
 */
export const loosening = [0, 0.15, 0.4, 0.8, 1.5, 2.5];

interface Found {
  readonly steel: Steel;
  readonly failing: readonly Failing[];
  /** How many proposals were computed. */
  readonly tries: number;
  /** Nothing else comes near the limits: all possibilities are used up. */
  readonly usedUp: boolean;
  /** What kept the search from a smaller proposal; absent where none passes. */
  readonly sizedBy?: string;
}

/**
 * Tendons that satisfy the checks of the sheet they are for. Limits, losses and the force of a strand are taken from a
 * trial sheet; what is proposed is computed on its own sheet, and the next one is tried where a check fails there.
 */
export function* found(task: Task): Steps<Found> {
  const { template, trials, answers, dimensions, sigj } = task;
  const { P, e } = guessed(template, answers, dimensions);
  const area = computed("TENDON_PRODUCT", [answers.product, "AREA"]);
  const layout = layoutFor(template, Math.ceil((P * 1000) / (0.9 * sigj * area)), answers, dimensions);
  const post = isPost(template);
  function* trialOf(of: Steel): Steps<Trial> {
    const { inputs } = assembled(task, of.inputs);
    yield;
    trials.prepare(inputs);
    yield;
    return trials.with(inputs);
  }
  let steel = steelOf(task, answers.tendons === undefined ? inFew(layout) : layout, e);
  let trial = yield* trialOf(steel);
  let best: Pick<Found, "steel" | "failing"> | undefined;
  const tried = new Tried(template);
  let usedUp = false;
  let [atLeast, fewest] = [1, 1];
  while (tried.count < mostTries) {
    const member = memberOf(trial, steel.strands, post ? "P0" : "Pact1", answers.h, answers.L);
    const kept = sparing * (1 + 2 * Math.min(tried.count, cheapestFirst));
    let next: Steel | undefined;
    for (const by of loosening) {
      yield;
      const loose = loosened(member, by);
      next = post
        ? tendonsFor(task, loose, trial, kept - by, { atLeast, fewest }, tried)
        : rowsFor(task, loose, trial, atLeast, tried);
      if (next) break;
    }
    if (!next) {
      if (atLeast > 1) {
        atLeast = 1;
        continue;
      }
      usedUp = !tried.leavesOut && fewest === 1;
      break;
    }
    steel = next;
    tried.add(steel);
    trial = yield* trialOf(steel);
    yield;
    const { failing } = trial;
    if (!best || failing.length < best.failing.length) best = { steel, failing };
    if (failing.length === 0) break;
    // Where steps of stressing fail: further from their limits, and not one web of a box after the other; else more strands.
    if (tried.count >= cheapestFirst) atLeast = 1;
    else if (!failing.some(({ id }) => whileStressing.has(id))) atLeast = steel.strands + 1;
    else if (steel.inputs["tendons"] === side(answers)) fewest = 2 * side(answers);
  }
  const tries = Math.max(1, tried.count);
  if (!best) {
    const guess = steelOf(task, layout, e);
    best = { steel: guess, failing: (yield* trialOf(guess)).failing };
    return { ...best, tries, usedUp };
  }
  if (best.failing.length > 0) return { ...best, tries, usedUp };
  yield;
  // What would be proposed if nothing had to hold between the stressing of one tendon and the next.
  const member = memberOf(trial, steel.strands, post ? "P0" : "Pact1", answers.h, answers.L);
  const free = post
    ? tendonsFor(task, member, trial, -Infinity, { atLeast: 1, fewest: 1 }, new Tried(template))
    : undefined;
  const fewer = oneFewer(steel);
  const failsWithFewer = fewer && (yield* trialOf(fewer)).failing;
  return {
    ...best,
    tries,
    usedUp,
    sizedBy: sizedBy({
      trial,
      ...(fewer && failsWithFewer && { fewer: { ...fewer, failing: failsWithFewer } }),
      ...(free && free.cost < steel.cost && { unlessStressed: free.words }),
    }),
  };
}

/**
 * The same steel in few tendons or rows: their sheets are laid out already while the questions are being answered, and
 * tell limits, losses and the force of a strand as well, to begin with.
 */
function inFew({ count, strands }: Layout): Layout {
  const few = Math.min(count, 2);
  return { count: few, strands: Math.ceil((count * strands) / few) };
}
