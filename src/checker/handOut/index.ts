export { handOutPlan, headRows as handOutHeadRows, readHandOut, type HandOutFacts } from "./handOutPlan.ts";
