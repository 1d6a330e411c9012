import type { Area } from "../../cells/index.ts";
import type { Plan } from "../../sheet/index.ts";
import { chartArea, type Heights } from "./measures.ts";

/** The plan's area; charts that stand outside it each by itself: an area begins a page, and no chart is to be cut. */
export function printAreas(plan: Plan, heights: Heights): readonly Area[] {
  const { area } = plan.print;
  const outside = plan.charts.filter(({ at }) => at.column >= area.column + area.columns);
  return [area, ...outside.map(({ at }) => chartArea(at, heights))];
}
