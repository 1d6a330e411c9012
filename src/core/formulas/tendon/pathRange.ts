import { InputError } from "../../errors.ts";
import { oneOf, type ValueOf } from "../../parameters.ts";
import { controlPoints } from "./controlPoints.ts";
import { deviatorsTable } from "./deviators.ts";
import { segmentsTable } from "./segments.ts";

const isBlank = (cell: unknown): boolean => cell === null || cell === undefined || cell === "";
const isText = (cell: unknown): boolean => typeof cell === "string" && !isBlank(cell);

/**
 * Which description of a tendon a range holds. Five columns are segments. Of three columns the last tells: shapes in words are control
 * points, numbers are deviators. Blank cells alone tell nothing, for both leave some blank.
 */
function tell(rows: readonly (readonly unknown[])[], parameter: string): "points" | "segments" | "deviators" {
  const columns = Math.max(...rows.map((row) => row.length));
  if (columns === 5) return "segments";
  if (columns !== 3)
    throw new InputError(
      parameter,
      `path is a range of ${columns} column${columns === 1 ? "" : "s"}; control points have 3 (x, e, ` +
        "shape), segments 5 (l, αv, αh, μ, k), deviators 3 (xi, θv, θh)",
    );
  const last = rows.map((row) => row[2]);
  const words = last.findIndex(isText);
  const numbers = last.findIndex((cell) => !isBlank(cell) && !isText(cell));
  if (words >= 0 && numbers >= 0)
    throw new InputError(
      parameter,
      `path cannot be told: its third column holds a shape in row ${words + 1} and a number in row ` +
        `${numbers + 1}; control points have shapes there (LINE, FROM_LEVEL, TO_LEVEL, SMOOTH), deviators ` +
        "angles in plan",
    );
  if (words < 0 && numbers < 0)
    throw new InputError(
      parameter,
      "path cannot be told: its third column is blank; type the shape of each control point there (LINE, " +
        "FROM_LEVEL, TO_LEVEL, SMOOTH), or the angle in plan of each deviator (0 where there is none)",
    );
  return words >= 0 ? "points" : "deviators";
}

/** The tendon, in any of three descriptions; its shape tells which. */
export const path = oneOf({
  key: "tendonPath",
  symbol: "path",
  text: "path of the tendon from left to right: control points, segments or deviators",
  tables: { points: controlPoints, segments: segmentsTable, deviators: deviatorsTable },
  tell,
});

export type PathRows = ValueOf<typeof path>;

/** What a message calls the description. */
export const descriptions = { points: "control points", segments: "segments", deviators: "deviators" } as const;

/** What every function along a tendon says of its path. */
export const pathNotes = [
  "The range tells which description it is. Three columns, the last a shape in words: control points " +
    "(x, e, shape); distances are measured along the span. Five columns: segments curved in space (l, " +
    "α_v, α_h, μ, k); each turns by √(α_v² + α_h²), one of length 0 at one place; reverse curvature " +
    "begins a new segment. Three columns of numbers: deviators of an external tendon with its two ends " +
    "(x, θ_v, θ_h); angles have no sign.",
];
