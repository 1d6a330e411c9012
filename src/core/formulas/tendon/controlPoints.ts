import { choice, table } from "../../parameters.ts";
import { q } from "../../quantities/index.ts";

/** How the tendon runs from a control point to the next. */
export const segmentShape = choice({
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
});

export const jackingEnd = choice({
  key: "jackingEnd",
  symbol: "end",
  text: "jacking end",
  values: [
    { value: "LEFT", text: "left end" },
    { value: "RIGHT", text: "right end" },
  ],
});

export type ControlPoint = {
  readonly x: number;
  readonly e: number;
  readonly shape: "LINE" | "FROM_LEVEL" | "TO_LEVEL" | "SMOOTH";
};
export type End = "LEFT" | "RIGHT";
