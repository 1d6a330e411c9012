import { InputError } from "../../errors.ts";
import { stepwise } from "../../formula.ts";
import { as, type ValueOf } from "../../parameters.ts";
import { q } from "../../quantities/index.ts";
import { holds } from "../section/polygon.ts";
import { acrossDirection, anchorages, endBlockParams, plates, seenOutline, type EndBlock } from "./endBlock.ts";

interface Row extends EndBlock {
  readonly row: number;
}
const rowOf = as(q.rank, { symbol: "row", text: "number of the anchorage in the table" });

function anchorage(rows: ValueOf<typeof anchorages>, row: number): ValueOf<typeof anchorages>[number] {
  const given = rows[row - 1];
  if (!given) throw new InputError("row", `row = ${row}, but there are ${rows.length} anchorages; take one of them`);
  if (given.P === 0) throw new InputError("row", `anchorage ${row} has no force; take one that presses`);
  return given;
}

/** From the axis of an anchorage to the nearer surface of the concrete in one direction; 0 where the axis is outside. */
function toSurface(block: Row): number {
  const { y, z } = anchorage(block.anchorages, block.row);
  if (!holds(block.outline, { x: z, y })) return 0;
  const [u, v] = block.direction === "VERTICAL" ? [y, z] : [z, y];
  const ring = seenOutline(block);
  const crossings = ring.flatMap((p, i) => {
    const n = ring[(i + 1) % ring.length]!;
    if (p.v > v === n.v > v) return [];
    return [p.u + ((n.u - p.u) * (v - p.v)) / (n.v - p.v)];
  });
  // A slit that joins a void to the outside is an edge to and fro: no surface.
  const surfaces = crossings.filter((c) => crossings.filter((other) => other === c).length % 2 === 1);
  return Math.min(...surfaces.map((c) => Math.abs(c - u)), Infinity);
}

/** Half the way to the next anchorage whose plate overlaps in the other direction. */
function toNeighbour(block: Row): number {
  const all = plates({ ...block, upTo: undefined });
  const index = block.anchorages.slice(0, block.row).filter(({ P }) => P > 0).length - 1;
  const own = all[index]!;
  const between = all.flatMap((other, i) => {
    if (i === index || Math.abs(other.v - own.v) >= (other.across + own.across) / 2) return [];
    return [Math.abs(other.u - own.u) / 2];
  });
  return Math.min(...between, Infinity);
}

/** Whether the concrete goes on as far as that on both sides, and no further on one of them. */
function reaches({ outline, anchorages: rows, row, direction }: Row, edge: number): boolean {
  const { y, z } = rows[row - 1]!;
  const inside = (by: number): boolean =>
    holds(outline, direction === "VERTICAL" ? { x: z, y: y + by } : { x: z + by, y });
  if (edge === 0) return !inside(0) || !inside(1e-6) || !inside(-1e-6);
  const within = [0.25, 0.5, 0.75].every((part) => inside(part * edge) && inside(-part * edge));
  return within && (!inside(1.0001 * edge) || !inside(-1.0001 * edge));
}

/** The part of the end block that belongs to one anchorage. */
export const anchoragePrism = stepwise({
  id: "ANCHORAGE_PRISM",
  family: "endZone",
  summary: "Side of the prism of concrete that one anchorage spreads into, with the anchorage in its axis",
  notes: [
    "Twice the lesser of the distance to the surface of the concrete, on the axis through the anchorage, and half " +
      "the distance to the next anchorage whose plate overlaps it in the other direction. 0 where the axis is outside " +
      "the concrete.",
    "For groups enter each group as one anchorage: its resultant, the plate round its plates, the sum of its forces.",
  ],
  source: { key: "practice", basis: "practice" },
  params: { ...endBlockParams, row: rowOf, direction: acrossDirection },
  result: q.prismSide,
  steps: {
    edge: { symbol: "c_e", unit: "mm", text: "to the nearer surface", governing: "c_e = \\min(u - u_1,\\ u_2 - u)" },
    b: { symbol: "b", unit: "mm", governing: "b = 2\\min\\left(c_e,\\ \\tfrac12 \\min_j |u_j - u|\\right)" },
  },
  compute: (v: Row) => {
    const edge = toSurface(v);
    return { edge, b: 2 * Math.min(edge, toNeighbour(v)) };
  },
  proof: (v, { edge, b }) => (reaches(v, edge) ? 0 : 1) + (b <= 2 * edge ? 0 : 1),
  unpublished: "prisms are drawn by eye in the examples read; tests take their sides from a drawing",
});

/** What the approval of the anchorage asks of its place. */
export const anchorageEdgeDistance = stepwise({
  id: "ANCHORAGE_EDGE_DISTANCE",
  family: "endZone",
  summary: "Distance of an anchorage's axis from the nearest surface of the concrete, up, down and sideways",
  notes: ["Compare with the edge distance in the approval of the anchorage for the strength at stressing."],
  source: { key: "practice", basis: "practice" },
  params: { ...endBlockParams, row: rowOf },
  result: as(q.prismSide, { symbol: "c_e", text: "distance from the nearest surface", typical: [30, 2000] }),
  steps: {
    up: { symbol: "c_v", unit: "mm", text: "up or down", governing: "c_v = \\min(y - y_1,\\ y_2 - y)" },
    side: { symbol: "c_h", unit: "mm", text: "sideways", governing: "c_h = \\min(z - z_1,\\ z_2 - z)" },
    edge: { symbol: "c_e", unit: "mm", equation: "min(up, side)" },
  },
  compute: (v: Omit<Row, "direction" | "upTo">) => {
    const up = toSurface({ ...v, direction: "VERTICAL" });
    const side = toSurface({ ...v, direction: "HORIZONTAL" });
    return { up, side, edge: Math.min(up, side) };
  },
  proof: (v, { up, side, edge }) =>
    (reaches({ ...v, direction: "VERTICAL" }, up) ? 0 : 1) +
    (reaches({ ...v, direction: "HORIZONTAL" }, side) ? 0 : 1) +
    Math.abs(edge - Math.min(up, side)),
  unpublished: "geometry; tests take it from a drawing",
});

const nearest = (rows: ValueOf<typeof anchorages>, row: number): number => {
  const own = anchorage(rows, row);
  const apart = rows.map((other, i) => {
    if (i === row - 1 || other.P === 0) return Infinity;
    return Math.max(Math.abs(other.y - own.y), Math.abs(other.z - own.z));
  });
  return Math.min(...apart);
};

export const anchorageSpacingUtilisation = stepwise({
  id: "ANCHORAGE_SPACING_UTILISATION",
  family: "endZone",
  summary: "Centre spacing that the approval of the anchorage asks for, over that to the nearest other anchorage",
  notes: ["The spacing of two is the larger of their vertical and horizontal distance. 0 where there is no other."],
  source: { key: "practice", basis: "practice" },
  params: {
    anchorages,
    row: rowOf,
    s_min: as(q.prismSide, { symbol: "s_min", text: "min. centre spacing by the approval", min: 1 }),
  },
  result: as(q.utilisation, { symbol: "u_s", max: 1e9 }),
  steps: {
    u: {
      symbol: "u_s",
      unit: "–",
      governing: "u_s = \\max_j \\frac{s_{min}}{\\max(|y_j - y|,\\ |z_j - z|)}",
    },
  },
  compute: ({ anchorages: rows, row, s_min }) => ({ u: Math.min(s_min / nearest(rows, row), 1e9) }),
  proof: (v, { u }) => {
    const own = v.anchorages[v.row - 1]!;
    const others = v.anchorages.filter((other, i) => i !== v.row - 1 && other.P > 0);
    if (others.length === 0) return u;
    const within = (by: number): boolean =>
      others.some(({ y, z }) => Math.abs(y - own.y) * u < by * v.s_min && Math.abs(z - own.z) * u < by * v.s_min);
    // None stands within the spacing that follows from u, and one just beyond it.
    return (within(1 - 1e-9) ? 1 : 0) + (within(1 + 1e-9) ? 0 : 1);
  },
  unpublished: "geometry; tests take it from a drawing",
});
