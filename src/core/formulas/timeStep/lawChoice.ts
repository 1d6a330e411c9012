import { choice } from "../../parameters.ts";

/** Whose creep, shrinkage and relaxation the steps take. */
export const timeLawChoice = choice({
  key: "timeLaw",
  symbol: "law",
  text: "creep, shrinkage and relaxation by",
  values: [
    { value: "EN1992_2004", text: "EN 1992-1-1:2004" },
    { value: "IS1343_1980", text: "IS 1343:1980, its values spread over time" },
    { value: "CEBFIP_1990", text: "CEB-FIP Model Code 1990, relaxation by EN 1992-1-1" },
    { value: "ACI209R_1992", text: "ACI 209R-92, relaxation by EN 1992-1-1" },
  ],
});

/** Cements as the laws group them; which of them a law takes is its own choice. */
export const cementOfLaw = choice({
  key: "cementOfLaw",
  symbol: "cement",
  text: "cement, in the groups of the law",
  values: [
    { value: "S", text: "EN 1992-1-1: slow" },
    { value: "N", text: "EN 1992-1-1: normal" },
    { value: "R", text: "EN 1992-1-1: rapid" },
    { value: "SL", text: "Model Code: slowly hardening" },
    { value: "N_R", text: "Model Code: normal or rapid hardening" },
    { value: "RS", text: "Model Code: rapid hardening, high strength" },
    { value: "I", text: "ACI 209R: type I" },
    { value: "III", text: "ACI 209R: type III" },
  ],
});
