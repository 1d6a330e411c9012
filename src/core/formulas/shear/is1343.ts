import { stepwise } from "../../formula.ts";
import { as } from "../../parameters.ts";
import { q } from "../../quantities/index.ts";

const b = as(q.sectionWidth, { text: "width of the web, less ducts as the standard says", min: 1 });

/** The uncracked section. */
export const shearUncrackedIs1343 = stepwise({
  id: "SHEAR_RESISTANCE_UNCRACKED_IS1343_1980",
  family: "shear",
  summary: "Shear resistance V_co of a section uncracked in bending",
  notes: [
    "f_cp is the effective prestress at the centroid, compression positive; the vertical component of the " +
      "tendons is added.",
    "Read in an answer page that quotes IS 1343:1980, not in the standard.",
  ],
  source: { key: "IS1343:1980", clause: "22.4.1", basis: "second-hand" },
  params: {
    b,
    D: q.sectionHeight,
    f_ck: q.cubeStrength,
    f_cp: as(q.meanCompression, { symbol: "f_cp", min: 0, typical: [0, 30] }),
    V_p: as(q.shear, {
      symbol: "V_p",
      text: "vertical component of the tendons where it resists",
      min: 0,
      default: 0,
      typical: [0, 20000],
    }),
  },
  result: as(q.shearForce, { symbol: "V_co", text: "shear resistance of the uncracked section" }),
  steps: {
    f_t: { symbol: "f_t", unit: "MPa", text: "principal tension allowed", equation: "0.24 * sqrt(f_ck)" },
    V_c: {
      symbol: "V_c0",
      unit: "kN",
      text: "of the concrete",
      equation: "0.67 * b * D * sqrt(f_t^2 + 0.8 * f_cp * f_t)",
    },
    V: { symbol: "V_co", unit: "kN", equation: "V_c + V_p" },
  },
  compute: ({ b: width, D, f_ck, f_cp, V_p }) => {
    const f_t = 0.24 * Math.sqrt(f_ck);
    const V_c = 0.67 * width * D * Math.sqrt(f_t * f_t + 0.8 * f_cp * f_t);
    return { f_t, V_c, V: V_c + V_p };
  },
  empirical: "the tensile strength is the standard's own fit over the cube strength in MPa",
});

/** The cracked section. */
export const shearCrackedIs1343 = stepwise({
  id: "SHEAR_RESISTANCE_CRACKED_IS1343_1980",
  family: "shear",
  summary: "Shear resistance V_cr of a section cracked in bending",
  notes: [
    "Recalled, not read. ξ_c is an input without default: take it from the table of your copy of the standard, " +
      "by 100 A_p/(b d) and grade.",
    "M_0 = 0.8 f_pt I/y is the moment that brings the stress at depth d to 0, f_pt the stress there by the " +
      "prestress alone: 0.8 times CRACKING_MOMENT with f_ct = 0, at the depth of the tendons.",
    "V and M are those of the same loads at the section.",
  ],
  source: { key: "IS1343:1980", clause: "22.4.2", basis: "memory-high" },
  params: {
    b,
    d: as(q.effectiveDepth, { min: 1 }),
    f_ck: q.cubeStrength,
    f_p: as(q.tendonTensileStrength, { symbol: "f_p", min: 100 }),
    f_pe: as(q.tendonStress, { symbol: "f_pe", text: "effective prestress after all losses" }),
    xi_c: q.shearStrength,
    M_0: as(q.shearMoment, { symbol: "M_0", text: "moment that brings the stress at the tendons' depth to 0" }),
    V: as(q.shearForce, { symbol: "V", text: "shear force at the section, taken positive" }),
    M: as(q.shearMoment, { text: "moment at the section, taken positive", min: 0.001 }),
  },
  limits: ({ f_p }) => ({
    f_pe: { max: 0.6 * f_p, because: "0.6 times the tensile strength, to which the formula holds" },
  }),
  result: as(q.shearForce, { symbol: "V_cr", text: "shear resistance of the cracked section" }),
  steps: {
    formula: {
      symbol: "V_1",
      unit: "kN",
      text: "by the formula",
      equation: "(1 - 0.55 * f_pe / f_p) * xi_c * b * d + M_0 * V / M",
    },
    least: { symbol: "V_0", unit: "kN", text: "always allowed", equation: "0.1 * b * d * sqrt(f_ck)" },
    V_cr: { symbol: "V_cr", unit: "kN", equation: "max(formula, least)" },
  },
  compute: ({ b: width, d, f_ck, f_p, f_pe, xi_c, M_0, V, M }) => {
    const byFormula = (1 - (0.55 * f_pe) / f_p) * xi_c * width * d + (M_0 * V) / M;
    const least = 0.1 * width * d * Math.sqrt(f_ck);
    return { formula: byFormula, least, V_cr: Math.max(byFormula, least) };
  },
  empirical: "the least value is the standard's own fit over the cube strength in MPa",
  unpublished: "no worked example was found in text",
});

/** Links. */
export const linkSpacingIs1343 = stepwise({
  id: "LINK_SPACING_IS1343_1980",
  family: "shear",
  summary:
    "Max. spacing of vertical links: for the shear force beyond V_c, for min. links, for depth and width of the web",
  notes: [
    "d_t is the larger of the depths of tendons and bars below the compressed edge. f_y no more than 415 MPa.",
    "0.4 b and the force were read in other works; 0.75 d_t, 4 b and, beyond 1.8 V_c, 0.5 d_t were recalled with " +
      "less confidence: compare them with your copy.",
    "Links are always counted as needed here; the standard exempts some members.",
  ],
  source: { key: "IS1343:1980", clause: "22.4.3", basis: "memory-medium" },
  params: {
    b,
    d_t: as(q.effectiveDepth, { symbol: "d_t", min: 1 }),
    A_sv: as(q.linkArea, { symbol: "A_sv" }),
    f_y: as(q.barYield, {
      symbol: "f_y",
      text: "characteristic yield stress of the links",
      min: 10,
      max: 415,
      typical: [200, 415],
    }),
    V_u: as(q.shearForce, { symbol: "V_u", text: "ultimate shear force, taken positive" }),
    V_c: as(q.shearForce, { symbol: "V_c", text: "shear that the concrete carries", min: 0.001 }),
  },
  result: as(q.linkSpacing, { symbol: "s_v", text: "max. spacing of the links" }),
  steps: {
    s_min: { symbol: "s_1", unit: "mm", text: "for min. links", equation: "A_sv * 0.87 * f_y / (0.4 * b)" },
    s_V: {
      symbol: "s_2",
      unit: "mm",
      text: "for the shear force beyond V_c",
      equation: "V_u > V_c ? A_sv * 0.87 * f_y * d_t / (V_u - V_c) : s_min",
    },
    s_d: {
      symbol: "s_3",
      unit: "mm",
      text: "for depth and width",
      equation: "min((V_u > 1.8 * V_c ? 0.5 : 0.75) * d_t, 4 * b)",
    },
    s: { symbol: "s_v", unit: "mm", equation: "min(s_min, s_V, s_d)" },
  },
  compute: ({ b: width, d_t, A_sv, f_y, V_u, V_c }) => {
    const s_min = (A_sv * 0.87 * f_y) / (0.4 * width);
    const s_V = V_u > V_c ? (A_sv * 0.87 * f_y * d_t) / (V_u - V_c) : s_min;
    const s_d = Math.min((V_u > 1.8 * V_c ? 0.5 : 0.75) * d_t, 4 * width);
    return { s_min, s_V, s_d, s: Math.min(s_min, s_V, s_d) };
  },
  empirical: "0.4 stands for a stress in MPa",
  unpublished: "no worked example was found in text",
});
