import { choice } from "../../parameters.ts";

/** Curing as ACI 209R-92 tells it apart. */
export const curing = choice({
  key: "curing209",
  symbol: "curing",
  text: "way of curing",
  values: [
    { value: "MOIST", text: "moist curing" },
    { value: "STEAM", text: "steam curing of 1 to 3 days" },
  ],
});

/** Cements of ACI 209R-92, by their ASTM type. */
export const cementType = choice({
  key: "cementType209",
  symbol: "cement",
  text: "type of cement",
  values: [
    { value: "I", text: "ordinary (type I)" },
    { value: "III", text: "high early strength (type III)" },
  ],
});

/** Cements as CEB-FIP Model Code 1990 groups them; its groups are not the classes of EN 1992-1-1. */
export const cementModelCode = choice({
  key: "cementModelCode",
  symbol: "cement",
  text: "group of cement",
  values: [
    { value: "SL", text: "slowly hardening" },
    { value: "N_R", text: "normal or rapid hardening" },
    { value: "RS", text: "rapid hardening, high strength" },
  ],
});

/** Aggregate as the component method tells it apart. */
export const concreteWeight = choice({
  key: "concreteWeight",
  symbol: "concrete",
  text: "weight of the concrete",
  default: "NORMAL",
  values: [
    { value: "NORMAL", text: "normal weight" },
    { value: "SAND_LIGHT", text: "sand-lightweight: creep loss 20 % less" },
  ],
});

/** Steels of the component method: tensile strength in ksi, and kind. */
export const componentSteel = choice({
  key: "componentSteel",
  symbol: "steel",
  text: "kind of prestressing steel",
  values: [
    { value: "270_RELIEVED", text: "strand or wire of 270 ksi (1860 MPa), stress-relieved" },
    { value: "250_RELIEVED", text: "strand or wire of 250 ksi (1725 MPa), stress-relieved" },
    { value: "240_RELIEVED", text: "wire of 240 or 235 ksi (1655 or 1620 MPa), stress-relieved" },
    { value: "270_LOW", text: "strand of 270 ksi (1860 MPa), low relaxation" },
    { value: "250_LOW", text: "wire of 250 ksi (1725 MPa), low relaxation" },
    { value: "240_LOW", text: "wire of 240 or 235 ksi (1655 or 1620 MPa), low relaxation" },
    { value: "BAR", text: "bar of 145 or 160 ksi (1000 or 1100 MPa), stress-relieved" },
  ],
});

/** Divisors of the logarithmic law of relaxation; works disagree on the one for low relaxation. */
export const relaxationDivisor = choice({
  key: "relaxationDivisor",
  symbol: "D",
  text: "divisor of the law, by kind of steel and by work",
  values: [
    { value: 45, text: "low relaxation: PCI 1975 and AASHTO's commentary" },
    { value: 40, text: "low relaxation: AASHTO before 2005, more loss" },
    { value: 10, text: "stress-relieved" },
  ],
});

/** Steels of the law of relaxation over time. */
export const relaxationKind = choice({
  key: "relaxationKind",
  symbol: "steel",
  text: "kind of prestressing steel by relaxation",
  values: [
    { value: "NORMAL", text: "normal relaxation" },
    { value: "LOW", text: "low relaxation" },
  ],
});
