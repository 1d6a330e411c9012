import type { Area } from "../../cells/index.ts";
import type { Plan } from "../../sheet/index.ts";
import { chartArea, type Heights } from "./measures.ts";

/** The plan's area, then each chart by itself: an area begins a page, and no chart is to be cut, whatever scale a program prints it at. */
export function printAreas(plan: Plan, heights: Heights): readonly Area[] {
  return [plan.print.area, ...plan.charts.map(({ at }) => chartArea(at, heights))];
}
