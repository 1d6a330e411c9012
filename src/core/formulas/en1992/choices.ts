import { choice } from "../../parameters.ts";

/** Strength classes of cement as EN 1992-1-1:2004 3.1.2(6) groups them. */
export const cementClass = choice({
  key: "cementClass",
  symbol: "cement",
  text: "cement class",
  values: [
    { value: "S", text: "slow: CEM 32,5 N" },
    { value: "N", text: "normal: CEM 32,5 R, CEM 42,5 N" },
    { value: "R", text: "rapid: CEM 42,5 R, CEM 52,5 N, CEM 52,5 R" },
  ],
});

/** Aggregates that EN 1992-1-1:2004 3.1.3(2) tells apart. */
export const aggregate = choice({
  key: "aggregate",
  symbol: "aggregate",
  text: "kind of aggregate",
  values: [
    { value: "QUARTZITE", text: "quartzite: the modulus of Table 3.1" },
    { value: "LIMESTONE", text: "limestone: 10 % less" },
    { value: "SANDSTONE", text: "sandstone: 30 % less" },
    { value: "BASALT", text: "basalt: 20 % more" },
  ],
  default: "QUARTZITE",
});

/** Relaxation classes of EN 1992-1-1:2004 3.3.2(4). */
export const relaxationClass = choice({
  key: "relaxationClass",
  symbol: "class",
  text: "relaxation class",
  values: [
    { value: 1, text: "wire or strand, ordinary relaxation" },
    { value: 2, text: "wire or strand, low relaxation" },
    { value: 3, text: "hot-rolled and processed bars" },
  ],
});

/** How the tendon is built in, as EN 1992-1-1:2004 5.10.9 tells it apart. */
export const construction = choice({
  key: "construction",
  symbol: "construction",
  text: "kind of tendon",
  values: [
    { value: "PRE_TENSIONED", text: "pre-tensioned" },
    { value: "UNBONDED", text: "post-tensioned, unbonded" },
    { value: "BONDED", text: "post-tensioned, bonded" },
    { value: "MEASURED", text: "suitable measures taken, such as measuring the force directly" },
  ],
});
