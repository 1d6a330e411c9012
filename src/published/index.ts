/** The only door to the published checks. */
export type { CaseBasis, CaseCell, CaseInput, CaseRow, PublishedCase } from "./case.ts";
export { argumentsOf, asItShould, countsAsPublished, halfLastDigit, judge, type Judgement, type Outcome } from "./judge.ts";
