import { quantities } from "./define.ts";

/** A section made of two concretes, and slabs with round voids. */
export const composite = quantities({
  toppingUnderside: {
    symbol: "y_0",
    unit: "mm",
    text: "height of the topping's underside above the soffit",
    min: -1000,
    max: 20000,
    typical: [0, 4000],
    smallest: 10,
  },
  toppingModulus: {
    symbol: "E_t",
    unit: "GPa",
    text: "modulus of elasticity of the topping's concrete",
    sort: "topping modulus",
    above: 0,
    max: 80,
    typical: [15, 45],
  },
  voidCount: {
    symbol: "n",
    unit: "–",
    text: "number of equal round voids in one row",
    min: 1,
    max: 200,
    whole: true,
    typical: [2, 14],
  },
  voidDiameter: { symbol: "d", unit: "mm", text: "diameter of the voids", above: 0, max: 3000, typical: [80, 1200] },
  voidHeight: {
    symbol: "y_v",
    unit: "mm",
    text: "height of the voids' centres above the soffit",
    above: 0,
    max: 10000,
    typical: [75, 1500],
  },
});
