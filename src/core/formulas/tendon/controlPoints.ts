import { as, choice, table } from "../../parameters.ts";
import { q } from "../../quantities/index.ts";

/** Rows of a tendon's path: more of them describe no tendon better. */
export const mostPathRows = 1000;

/** How the tendon runs from a control point to the next. */
const segmentShape = choice({
  key: "segmentShape",
  symbol: "shape",
  text: "how the tendon runs from the point to the next",
  values: [
    { value: "LINE", text: "straight to the next point" },
    { value: "FROM_LEVEL", text: "parabola, level at this point" },
    { value: "TO_LEVEL", text: "parabola, level at the next point" },
    { value: "SMOOTH", text: "parabola that goes on from the segment before without a kink" },
  ],
  default: "LINE",
});

export const controlPoints = table({
  key: "controlPoints",
  symbol: "points",
  text: "control points of the tendon from left to right",
  columns: { x: q.controlX, e: q.eccentricity, shape: segmentShape },
  minRows: 2,
  maxRows: mostPathRows,
});

/** The same in plan, where the offset stands for the eccentricity. */
export const planPoints = {
  ...table({
    key: "planPoints",
    symbol: "plan",
    text: "control points in plan; same ends as in elevation",
    columns: {
      ...controlPoints.columns,
      e: as(q.eccentricity, { symbol: "y", text: "offset in plan from a line along the span" }),
    },
    minRows: 2,
    maxRows: mostPathRows,
  }),
  optional: true,
} as const;

export type ControlPoint = {
  readonly x: number;
  readonly e: number;
  readonly shape: "LINE" | "FROM_LEVEL" | "TO_LEVEL" | "SMOOTH";
};
