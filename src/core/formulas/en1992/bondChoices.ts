import { choice } from "../../parameters.ts";

/** Tendons as EN 1992-1-1:2004 8.10.2.2 tells them apart. */
export const tendonSurface = choice({
  key: "tendonSurface",
  symbol: "tendon",
  text: "kind of tendon for bond",
  values: [
    { value: "STRAND", text: "strand of 3 or 7 wires" },
    { value: "INDENTED_WIRE", text: "indented wire" },
  ],
});

/** Bond conditions of EN 1992-1-1:2004 8.4.2. */
export const bondConditions = choice({
  key: "bondConditions",
  symbol: "bond",
  text: "bond conditions",
  default: "GOOD",
  values: [
    { value: "GOOD", text: "good (8.4.2)" },
    { value: "OTHER", text: "all others" },
  ],
});

/** How the tendons are let go, EN 1992-1-1:2004 8.10.2.2(2). */
export const releaseWay = choice({
  key: "releaseWay",
  symbol: "release",
  text: "release of the tendons",
  default: "GRADUAL",
  values: [
    { value: "GRADUAL", text: "gradual" },
    { value: "SUDDEN", text: "sudden" },
  ],
});

/** η_1 of 8.10.2.2(1). */
export const bondConditionFactors = { GOOD: 1, OTHER: 0.7 };
/** α_2 of 8.10.2.2(2): wire is circular. */
export const surfaceLengthFactors = { STRAND: 0.19, INDENTED_WIRE: 0.25 };
