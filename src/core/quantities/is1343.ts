import { quantities } from "./define.ts";

/** Concrete of the Indian standards: cube strengths, which never stand in for cylinder strengths. */
export const is1343 = quantities({
  cubeStrength: {
    symbol: "f_ck",
    unit: "MPa",
    text: "characteristic cube strength at 28 days",
    sort: "characteristic cube strength",
    min: 30,
    max: 60,
  },
  cubeStrengthAtTransfer: {
    symbol: "f_ci",
    unit: "MPa",
    text: "cube strength at transfer",
    sort: "cube strength at transfer",
    above: 0,
    max: 60,
    typical: [20, 60],
  },
  cubeFlexuralStrength: {
    symbol: "f_cr",
    unit: "MPa",
    text: "flexural tensile strength",
    sort: "flexural tensile strength from cubes",
    min: 0,
    max: 10,
  },
  minimumGrade: {
    symbol: "f_ck,min",
    unit: "MPa",
    text: "least characteristic cube strength",
    sort: "characteristic cube strength",
    min: 0,
    max: 100,
  },
});
