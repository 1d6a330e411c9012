export { computingCopy, headRows as handOutHeadRows, isHandOut, readHandOut } from "./handOutPlan.ts";
