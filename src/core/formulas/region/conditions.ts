import { InputError } from "../../errors.ts";
import { as, choice, format, table, type ValueOf } from "../../parameters.ts";
import { q } from "../../quantities/index.ts";
import type { HalfPlane } from "./halfPlane.ts";

/** Which fibres of a row, or of a stage, count. */
export const fibre = choice({
  key: "checkedFibre",
  symbol: "fibre",
  text: "fibre that is checked",
  default: "BOTH",
  values: [
    { value: "BOTH", text: "top and bottom" },
    { value: "TOP", text: "top alone" },
    { value: "BOTTOM", text: "bottom alone" },
  ],
});

/** One row a condition: a stage with a combination of loads, its limits, and the section that bears it. */
export const conditions = table({
  key: "stressConditions",
  symbol: "conditions",
  text: "conditions, one row each",
  minRows: 1,
  maxRows: 1000,
  columns: {
    M: as(q.moment, { text: "moment, sagging positive" }),
    r: as(q.forceFactor, { text: "factor of the force" }),
    f_c: as(q.compressionLimit, { symbol: "f_c", text: "greatest stress", min: 0, max: 200 }),
    f_t: as(q.tensionLimit, { symbol: "f_t", text: "least stress, compression positive", min: -200, max: 200 }),
    A: as(q.area, { text: "area" }),
    I: as(q.secondMoment, { text: "second moment" }),
    y_b: as(q.centroidHeight, { text: "centroid above the soffit", above: 0 }),
    h: as(q.sectionHeight, { text: "height" }),
    fibre,
  },
});
type Row = ValueOf<typeof conditions>[number];

/** What every function of this family says about its conditions. */
export const conditionNotes = [
  "In condition i the force is r_i·P; each checked fibre must keep f_t ≤ σ ≤ f_c, compression positive, " +
    "so that limits of tension are negative.",
  "The eccentricity counts from the centroid of the first row's section; other rows may have another " +
    "centroid (net, transformed). The last column may be left empty: both fibres.",
  "Where a load acts on another section than the force does (before or after a topping has hardened), " +
    "give each fibre a row of its own with the moment M = −σ·I/y that makes the same stress σ on the " +
    "row's section.",
];

/** The fibres a row checks, by their distance from its centroid, positive below. */
function fibresOf(row: Row): readonly (readonly [name: string, y: number])[] {
  const top = ["top", row.y_b - row.h] as const;
  const bottom = ["bottom", row.y_b] as const;
  return row.fibre === "TOP" ? [top] : row.fibre === "BOTTOM" ? [bottom] : [top, bottom];
}

/**
 * The limits as half-planes over u = 1/P and e. A stress divided by P is linear in them:
 * σ/P = r/A + r (e + δ) y/I − u M y/I.
 */
export function halfPlanes(rows: readonly Row[]): readonly HalfPlane[] {
  return rows.flatMap((row, i) => {
    const { M, r, f_c, f_t, A, I } = row;
    const shift = row.y_b - rows[0]!.y_b;
    return fibresOf(row).flatMap(([name, y]): readonly HalfPlane[] => {
      const byE = (r * y) / I;
      const constant = r / A + byE * shift;
      const load = (M * y) / I;
      return [
        {
          a: -(load + f_t),
          b: byE,
          c: constant,
          condition: i + 1,
          name: `tension at the ${name} in condition ${i + 1}`,
        },
        {
          a: load + f_c,
          b: -byE,
          c: -constant,
          condition: i + 1,
          name: `compression at the ${name} in condition ${i + 1}`,
        },
      ];
    });
  });
}

/** The half-planes, after a look at what one row's cells say together. */
export function checkedHalfPlanes(rows: readonly Row[]): readonly HalfPlane[] {
  rows.forEach(({ f_c, f_t, y_b, h }, i) => {
    if (f_t >= f_c)
      throw new InputError(
        "conditions",
        `row ${i + 1} of conditions allows from ${format(f_t)} to ${format(f_c)} MPa; the tension limit must ` +
          "be below the compression limit, compression positive",
      );
    if (y_b >= h)
      throw new InputError(
        "conditions",
        `row ${i + 1} of conditions has its centroid ${format(y_b)} mm above the soffit; it must lie below the height h = ${format(h)} mm`,
      );
  });
  return halfPlanes(rows);
}
