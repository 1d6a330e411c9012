export { headRows as handOutHeadRows, readHandOut } from "./handOutPlan.ts";
