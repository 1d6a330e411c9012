import { as, format } from "../../parameters.ts";
import { q } from "../../quantities/index.ts";

/** The jack with its gauge, first in every function about them. */
export const jack = { A_ram: q.ramArea, eta_j: q.jackLoss, eta_a: q.anchorageLoss };

export const jackNotes = [
  "The force in the tendon behind the anchorage is p A_ram (1 − η_j)(1 − η_a). Take A_ram and η_j from " +
    "the calibration of this jack with this gauge; 0 where the calibration counts a loss already.",
  "While the jack lets down, friction in it acts the other way.",
];
export const nonePublished = "Pressure times area; no published number found.";

export const share = as(q.forceShare, { symbol: "P_i/P", text: "part of the jacking force at this stage" });

/** 2000 bar: above it no gauge of the trade reads. */
const highestReading = 200;
/** 700 bar: what jacks and pumps usually bear. */
const usualRating = 70;

interface Hydraulics {
  readonly A_ram: number;
  readonly eta_j: number;
  readonly eta_a: number;
}
const transmitted = ({ A_ram, eta_j, eta_a }: Hydraulics): number => A_ram * (1 - eta_j) * (1 - eta_a);

/** Force and pressure that no equipment of the trade stands for point to a slip in the ram's area. */
export const forceLimit = (v: Hydraulics) => ({
  P: { max: highestReading * transmitted(v), because: "the force that takes 2000 bar with this ram: check the area" },
});
export const ratingCaution = (v: Hydraulics & { readonly P: number }): readonly string[] =>
  v.P > usualRating * transmitted(v)
    ? [
        `the gauge reads ${format((10 * v.P) / transmitted(v))} bar, above the usual 700 bar: compare ` +
          "with what jack, hoses and pump are rated for",
      ]
    : [];
