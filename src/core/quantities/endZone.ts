import { strainNeighbours } from "../neighbours.ts";
import { quantities } from "./define.ts";

/** End zones and the joint between two concretes. */
export const endZone = quantities({
  localForce: {
    symbol: "F",
    unit: "kN",
    text: "force of an anchorage or on a loaded area",
    min: 0,
    max: 1e6,
    typical: [0, 20000],
    smallest: 21,
  },
  plateRatio: {
    symbol: "y_po/y_o",
    unit: "–",
    text: "side of the loaded area over the side of the end block",
    min: 0.05,
    max: 1,
    typical: [0.1, 1],
  },
  tieStress: {
    symbol: "σ_s",
    unit: "MPa",
    text: "stress allowed in the steel of a tie",
    above: 0,
    max: 700,
    typical: [80, 500],
  },
  jointStress: {
    symbol: "v_Ed,i",
    unit: "MPa",
    text: "shear stress of the joint",
    min: 0,
    max: 1000,
    typical: [0, 12],
    smallest: 0.013,
  },
  jointCompression: {
    symbol: "σ_n",
    unit: "MPa",
    text: "stress across the joint that acts with the shear, compression positive",
    min: -50,
    max: 100,
    typical: [-2, 10],
    smallest: 0.011,
  },
  jointSteel: {
    symbol: "ρ",
    unit: "–",
    text: "steel that crosses the joint over its area",
    min: 0,
    max: 0.1,
    typical: [0, 0.05],
    smallest: 0.0006,
  },
  forceInLater: {
    symbol: "β_F",
    unit: "–",
    text: "force of the later concrete over the whole force of its zone",
    min: 0,
    max: 1,
    typical: [0.05, 1],
  },
  shrinkageDifference: {
    symbol: "Δε_cs",
    unit: "–",
    text:
      "shrinkage of the topping less that of the member from the joining on, positive where the topping shortens " +
      "more",
    neighbours: strainNeighbours,
    min: -0.002,
    max: 0.002,
    typical: [-0.0008, 0.0008],
    smallest: 2e-5,
  },
});
