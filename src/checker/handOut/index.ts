export { handOutPlan, headRows as handOutHeadRows, isHandOut, readHandOut, type HandOutFacts } from "./handOutPlan.ts";
