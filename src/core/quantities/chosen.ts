import { quantities } from "./define.ts";

/** What functions give whose result is another quantity with each value of a choice: a call always gives one of them. */
export const chosen = quantities({
  characteristicStrength: {
    symbol: "f",
    unit: "MPa",
    text: "characteristic cylinder strength at the age that “age” names",
  },
  strengthOf: { symbol: "f", unit: "MPa", text: "strength at 28 days that “strength” names" },
  limitStrength: { symbol: "f", unit: "MPa", text: "strength that goes with what “situation” names" },
  tensionAllowed: { symbol: "f", unit: "MPa", text: "tension that “rule” allows, a positive number" },
  designedStrength: { symbol: "f", unit: "MPa", text: "strength that “strength” names" },
  bondedStrength: { symbol: "f", unit: "MPa", text: "tensile strength that goes with what “situation” names" },
  cubeStrengthAt: { symbol: "f_c", unit: "MPa", text: "cube strength at the age that “age” names" },
  lockOffInput: { symbol: "σ", unit: "MPa", text: "jacking stress, or the stress wanted after lock-off" },
  sectionProperty: {
    symbol: "A, y_b, I, u",
    unit: "mm², mm or mm⁴",
    text: "the property of the section that “property” names",
  },
  levelProperty: { symbol: "b, A, S", unit: "mm, mm² or mm³", text: "what “property” names, at the height" },
  crackedProperty: { symbol: "x, σ", unit: "mm or MPa", text: "what “property” names, of the cracked section" },
  productProperty: {
    symbol: "property",
    unit: "mm, mm², kg/m, kN, MPa, GPa or –",
    text: "the property of the product that “property” names",
  },
  drawInResult: { symbol: "l_a, σ", unit: "m or MPa", text: "what “result” names, of the draw-in" },
  stepResult: { symbol: "P_k, e_k", unit: "kN or mm", text: "what “result” names, of the tendons stressed so far" },
  vertexResult: { symbol: "P_k, e_k, u_k, n", unit: "kN, mm, 1/MN or –", text: "what “result” names, of the region" },
  minForceResult: { symbol: "P, e", unit: "kN or mm", text: "what “result” names, at the min force" },
  marginResult: { symbol: "Δσ, i", unit: "MPa or –", text: "what “result” names, of the closest limit" },
  wantedForFibre: { symbol: "P, e", unit: "kN or mm", text: "what “result” names, for the stress wanted in the fibre" },
  crackControl: { symbol: "w, req.", unit: "mm or –", text: "what “result” names, by exposure class" },
  classStrength: { symbol: "f_ck", unit: "MPa", text: "characteristic strength of the class" },
  meanStrength: { symbol: "f_cm", unit: "MPa", text: "mean cylinder strength" },
  strengthAtAge: { symbol: "f(t)", unit: "MPa", text: "the strength at the age that “strength” names" },
  tensileFromMean: { symbol: "f_ct", unit: "MPa", text: "the tensile strength that “value” names" },
  designStrength: { symbol: "f_cd, f_ctd", unit: "MPa", text: "the design strength that “strength” names" },
  lockOffResult: { symbol: "σ", unit: "MPa", text: "what “result” names, of the lock-off" },
  partialResult: { symbol: "P/P_full, f_cm", unit: "MPa or –", text: "what “result” names, for stressing in steps" },
});
