/** The only door to the published checks. */
export type { CaseBasis, CaseInput, CaseRow, PublishedCase } from "./case.ts";
export { asItShould, countsAsPublished, halfLastDigit, judge, type Judgement, type Outcome } from "./judge.ts";
