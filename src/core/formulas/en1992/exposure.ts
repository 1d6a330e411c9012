import { choice } from "../../parameters.ts";

/** Exposure classes as EN 1992-1-1:2004 Table 7.1N groups them. */
export const exposureGroup = choice({
  key: "exposureGroup",
  symbol: "exposure",
  text: "exposure class",
  values: [
    { value: "X0_XC1", text: "X0, XC1" },
    { value: "XC2_XC4", text: "XC2, XC3, XC4" },
    { value: "XD_XS", text: "XD1, XD2, XS1, XS2, XS3" },
  ],
});

/** Members as Table 7.1N tells them apart. */
export const crackedMember = choice({
  key: "crackedMember",
  symbol: "member",
  text: "bond of the tendons",
  values: [
    { value: "BONDED", text: "prestressed with bonded tendons" },
    { value: "UNBONDED", text: "prestressed with unbonded tendons, or reinforced" },
  ],
});

/** Combinations of actions for serviceability. */
export const combination = choice({
  key: "serviceCombination",
  symbol: "combination",
  text: "combination of actions",
  values: [
    { value: "CHARACTERISTIC", text: "characteristic" },
    { value: "FREQUENT", text: "frequent" },
    { value: "QUASI_PERMANENT", text: "quasi-permanent" },
  ],
});
