import { cautions } from "../../cautions.ts";
import { choosing } from "../../choosing.ts";
import { formula, stepwise } from "../../formula.ts";
import { valueFor } from "../../lookup.ts";
import { as, choice } from "../../parameters.ts";
import { q } from "../../quantities/index.ts";
import { releaseWay, surfaceLengthFactors, tendonSurface } from "../en1992/bondChoices.ts";

const releaseFactors = { GRADUAL: 1, SUDDEN: 1.25 };
const clause = "8.10.2.2";

/** Basic transmission length. */
export const transmissionLengthEn1992 = stepwise({
  id: "TRANSMISSION_LENGTH_EN1992_2004",
  family: "transmission",
  summary: "Basic value of the transmission length, in mm",
  notes: [
    "σ_pm0 is the tendon stress just after release.",
    "The design value is the less favourable of the lower and the upper one (8.10.2.2(3)).",
    "α_1 and α_2 were read in the French transcription of the standard only.",
    cautions.release,
  ],
  source: { key: "EN1992-1-1:2004", clause: `${clause}(2) (8.16)`, basis: "seen", readIn: "CE:2021" },
  params: {
    phi: q.strandDiameter,
    tendon: tendonSurface,
    f_bpt: as(q.bondStrength, { symbol: "f_bpt", text: "bond strength at release" }),
    sigma_pm0: as(q.tendonStress, { symbol: "σ_pm0", text: "tendon stress just after release" }),
    release: releaseWay,
  },
  result: q.transmissionLength,
  steps: {
    alpha_1: {
      symbol: "α_1",
      unit: "–",
      text: "factor of the release",
      lookup: { of: "release", values: releaseFactors },
    },
    alpha_2: {
      symbol: "α_2",
      unit: "–",
      text: "factor of the kind of tendon",
      lookup: { of: "tendon", values: surfaceLengthFactors },
    },
    l_pt: { symbol: "l_pt", unit: "mm", clause: "(8.16)", equation: "alpha_1 * alpha_2 * phi * sigma_pm0 / f_bpt" },
  },
  compute: (v) => {
    const alpha_1 = valueFor(releaseFactors, v.release);
    const alpha_2 = valueFor(surfaceLengthFactors, v.tendon);
    return { alpha_1, alpha_2, l_pt: (alpha_1 * alpha_2 * v.phi * v.sigma_pm0) / v.f_bpt };
  },
  unpublished: "no published result was found; recomputed by hand in the tests",
});

const basic = as(q.transmissionLength, { text: "basic value of the transmission length" });

/** For stresses at release. */
const lowerLength = formula({
  id: "TRANSMISSION_LENGTH_BOUND_EN1992_2004",
  family: "transmission",
  summary: "Lower design value of the transmission length, unfavourable for stresses at release",
  source: { key: "EN1992-1-1:2004", clause: `${clause}(3) (8.17)`, basis: "seen", readIn: "CE:2021" },
  params: { l_pt: basic },
  result: as(q.transmissionLength, { symbol: "l_pt1" }),
  equation: "0.8 * l_pt",
  compute: ({ l_pt }) => 0.8 * l_pt,
  unpublished: "one product",
});

/** For shear, anchorage and bending later. */
const upperLength = formula({
  id: "TRANSMISSION_LENGTH_BOUND_EN1992_2004",
  family: "transmission",
  summary: "Upper design value of the transmission length, unfavourable for shear, anchorage and later bending",
  source: { key: "EN1992-1-1:2004", clause: `${clause}(3) (8.18)`, basis: "seen", readIn: "CE:2021" },
  params: { l_pt: basic },
  result: as(q.transmissionLength, { symbol: "l_pt2" }),
  equation: "1.2 * l_pt",
  compute: ({ l_pt }) => 1.2 * l_pt,
  unpublished: "one product",
});

/** The less favourable of both counts. */
export const transmissionLengthBoundEn1992 = choosing({
  id: "TRANSMISSION_LENGTH_BOUND_EN1992_2004",
  family: "transmission",
  summary: "Lower or upper design value of the transmission length, from the basic value",
  by: {
    bound: choice({
      key: "lengthBound",
      symbol: "bound",
      text: "design value that is wanted",
      values: [
        { value: "LOWER", text: "lower, unfavourable for stresses at release" },
        { value: "UPPER", text: "upper, unfavourable for shear, anchorage and later bending" },
      ],
    }),
  },
  as: { LOWER: lowerLength, UPPER: upperLength },
  order: ["l_pt", "bound"],
  result: q.transmissionLength,
});

/** From the end of the member on, stresses are linear over the height. */
export const dispersionLengthEn1992 = formula({
  id: "DISPERSION_LENGTH_EN1992_2004",
  family: "transmission",
  summary: "Length beyond which the concrete stresses may be taken as linear over the height",
  source: { key: "EN1992-1-1:2004", clause: `${clause}(4) (8.19)`, basis: "seen", readIn: "CE:2021" },
  params: { l_pt: basic, d: as(q.distance, { symbol: "d", text: "effective depth of the tendons" }) },
  result: as(q.transmissionLength, { symbol: "l_disp", text: "dispersion length" }),
  equation: "sqrt(l_pt^2 + d^2)",
  compute: ({ l_pt, d }) => Math.hypot(l_pt, d),
  unpublished: "Pythagoras; no published result was found",
});

/** Anchorage where the concrete may crack. */
export const anchorageLengthEn1992 = stepwise({
  id: "ANCHORAGE_LENGTH_EN1992_2004",
  family: "transmission",
  summary: "Total length to anchor a tendon of stress σ_pd in the ultimate limit state, in mm",
  notes: ["Needed where the tension in the concrete exceeds f_ctk,0.05 in the ultimate state (8.10.2.3(1))."],
  source: { key: "EN1992-1-1:2004", clause: "8.10.2.3(4) (8.21)", basis: "seen", readIn: "CE:2021" },
  params: {
    l_pt2: as(q.transmissionLength, { symbol: "l_pt2", text: "upper design value of the transmission length" }),
    phi: q.strandDiameter,
    tendon: tendonSurface,
    f_bpd: as(q.bondStrength, { symbol: "f_bpd", text: "bond strength for anchorage" }),
    sigma_pd: as(q.tendonStress, { symbol: "σ_pd", text: "tendon stress of the ultimate state" }),
    sigma_pmInf: as(q.tendonStress, { symbol: "σ_pm∞", text: "prestress after all losses" }),
  },
  limits: ({ sigma_pd }) => ({ sigma_pmInf: { max: sigma_pd, because: "the stress of the ultimate state" } }),
  result: as(q.transmissionLength, { symbol: "l_bpd", text: "anchorage length" }),
  steps: {
    alpha_2: {
      symbol: "α_2",
      unit: "–",
      text: "factor of the kind of tendon",
      clause: `${clause}(2)`,
      lookup: { of: "tendon", values: surfaceLengthFactors },
    },
    l_bpd: {
      symbol: "l_bpd",
      unit: "mm",
      clause: "(8.21)",
      equation: "l_pt2 + alpha_2 * phi * (sigma_pd - sigma_pmInf) / f_bpd",
    },
  },
  compute: (v) => {
    const alpha_2 = valueFor(surfaceLengthFactors, v.tendon);
    return { alpha_2, l_bpd: v.l_pt2 + (alpha_2 * v.phi * (v.sigma_pd - v.sigma_pmInf)) / v.f_bpd };
  },
  unpublished: "no published result was found",
});
