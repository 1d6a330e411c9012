import type { PublishedCase } from "./case.ts";

/** The only door to the published checks. */
export { uncounted } from "./case.ts";
export type { CaseInput, CaseRow, PublishedCase } from "./case.ts";
export {
  argumentsOf,
  asItShould,
  countsAsPublished,
  halfLastDigit,
  judge,
  type Judgement,
  type Outcome,
} from "./judge.ts";
export { convert } from "./units.ts";

/** Every published check; loaded on demand, so that a page that shows none carries none. */
export async function loadCases(): Promise<readonly PublishedCase[]> {
  return (await import("./allCases.ts")).allCases;
}
