export type { Finding as IdentifyFinding, Verdict } from "./finding.ts";
export { Identifier } from "./identify.ts";
export {
  asSentence,
  countsOf as countsOfIdentified,
  countsText as countsOfIdentifiedText,
  effectText,
  evidenceText,
  givenText,
  limitsOfIdentifying,
  outcomeText,
  verdictsInOrder,
  verdictWords,
  type IdentifiedList,
} from "./list.ts";
export { argumentText, identifiedPaper } from "./listPaper.ts";
export { identifiedPlan } from "./listPlan.ts";
export { identifyOn, type IdentifyOptions } from "./running.ts";
