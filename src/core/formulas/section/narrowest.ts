import { stepwise } from "../../formula.ts";
import { as } from "../../parameters.ts";
import { q } from "../../quantities/index.ts";
import { mechanics } from "../mechanics.ts";
import { widthAt, widthBeside } from "./around.ts";
import { outline } from "./outline.ts";
import { polygon, type Point } from "./polygon.ts";

const between = (points: readonly Point[], from: number, to: number): readonly number[] =>
  [...new Set(points.map(({ y }) => y))].filter((y) => y > from && y < to).sort((a, b) => a - b);

/** The width is straight between corners: it is smallest at one of them or at an end. */
const narrowest = (points: readonly Point[], from: number, to: number): number =>
  Math.min(
    widthBeside(points, from, true),
    widthBeside(points, to, false),
    ...between(points, from, to).map((y) => widthAt(points, y)),
  );

/** Strip by strip, from two widths inside each. */
function byStrips(points: readonly Point[], from: number, to: number): number {
  const levels = [from, ...between(points, from, to), to];
  return Math.min(
    ...levels.slice(1).flatMap((high, i) => {
      const low = levels[i]!;
      const [a, b] = [0.25, 0.75].map((part) => widthAt(points, low + part * (high - low)));
      const half = (b! - a!) / 2;
      return [a! - half, b! + half];
    }),
  );
}

/** The web between the chords, wherever it is. */
export const narrowestWidth = stepwise({
  id: "OUTLINE_NARROWEST_WIDTH",
  family: "section",
  summary: "Smallest width of a section given point by point between two heights, such as the web between its chords",
  notes: [
    "At a step the narrower side counts, at the two heights the side between them. Voids are not counted; join " +
      "them to the outside by a slit.",
  ],
  source: mechanics,
  params: {
    outline,
    y_1: as(q.heightAboveSoffit, { symbol: "y_1", text: "lower height, in the coordinates of the outline" }),
    y_2: as(q.heightAboveSoffit, { symbol: "y_2", text: "upper height" }),
  },
  limits: ({ outline: points, y_1 }) => ({
    y_1: {
      min: Math.min(...points.map((p) => p.y)),
      max: Math.max(...points.map((p) => p.y)),
      because: "the height of the section",
    },
    y_2: { min: y_1, max: Math.max(...points.map((p) => p.y)), because: "the lower height, or that of the section" },
  }),
  result: as(q.widthAtLevel, { symbol: "b_min", text: "smallest width" }),
  steps: {
    b: { symbol: "b_min", unit: "mm", governing: "b_{min} = \\min_{y_1 \\le y \\le y_2} b(y)" },
  },
  compute: ({ outline: points, y_1, y_2 }) => {
    polygon(points, "outline", "the outline");
    return { b: narrowest(points, y_1, y_2) };
  },
  proof: ({ outline: points, y_1, y_2 }, { b }) => (y_2 > y_1 ? (b - byStrips(points, y_1, y_2)) / (1 + b) : 0),
  unpublished: "Geometry; tests compare it with the widths of rectangles, T- and I-sections.",
});
