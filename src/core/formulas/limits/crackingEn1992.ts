import { choosing } from "../../choosing.ts";
import { NoResult } from "../../errors.ts";
import { formula, stepwise } from "../../formula.ts";
import { valueFor } from "../../lookup.ts";
import { choice } from "../../parameters.ts";
import { q } from "../../quantities/index.ts";
import { combination, crackedMember, exposureGroup } from "../en1992/exposure.ts";

const source = { key: "EN1992-1-1:2004", clause: "7.3.1(5) Table 7.1N", basis: "second-hand" } as const;
const tableNotes = [
  "Recommended values; the National Annex decides.",
  "The pattern of the table was read in a national text and its values second-hand; the decompression " +
    "under the quasi-permanent combination for XC2 to XC4 is a note to the table.",
  "XD3 is not in the table: it may ask for measures of its own, 7.3.1(7).",
];

/**
 * By exposure, what the table asks: under the frequent combination a width, under the quasi-permanent one a width, for
 * either kind of member.
 */
const bondedWidth = { X0_XC1: 0.2, XC2_XC4: 0.2, XD_XS: 0 };
const unbondedWidth = { X0_XC1: 0.4, XC2_XC4: 0.3, XD_XS: 0.3 };
const bondedCombination = { CHARACTERISTIC: 0, FREQUENT: 1, QUASI_PERMANENT: 0 };
const unbondedCombination = { CHARACTERISTIC: 0, FREQUENT: 0, QUASI_PERMANENT: 1 };
const isBonded = { BONDED: 1, UNBONDED: 0 };

/** How wide may a crack be? */
const crackWidthLimit = stepwise({
  id: "CRACK_CONTROL_EN1992_2004",
  family: "limits",
  summary: "Greatest crack width by exposure class and bond of the tendons, under the combination the table names",
  notes: [
    ...tableNotes,
    "Bonded tendons: frequent combination. Unbonded tendons and reinforced members: quasi-permanent " +
      "combination. Under another combination the table has no width, and there is no result.",
    "Bonded tendons in XD1, XD2 and XS: decompression takes the place of a crack width. In X0 and XC1 " +
      "with unbonded tendons the width serves the appearance only.",
  ],
  source,
  params: { exposure: exposureGroup, member: crackedMember, combination },
  result: q.crackWidthLimit,
  steps: {
    bonded: { symbol: "bonded", unit: "–", text: "1 for bonded tendons", lookup: { of: "member", values: isBonded } },
    w_b: {
      symbol: "w_b",
      unit: "mm",
      text: "bonded tendons; 0: decompression instead",
      lookup: { of: "exposure", values: bondedWidth },
    },
    w_u: { symbol: "w_u", unit: "mm", text: "unbonded tendons", lookup: { of: "exposure", values: unbondedWidth } },
    w_max: { symbol: "w_max", unit: "mm", equation: "bonded == 1 ? w_b : w_u" },
  },
  compute: (v) => {
    const bonded = valueFor(isBonded, v.member),
      w_b = valueFor(bondedWidth, v.exposure),
      w_u = valueFor(unbondedWidth, v.exposure);
    if (valueFor(bonded === 1 ? bondedCombination : unbondedCombination, v.combination) === 0)
      throw new NoResult(
        `Table 7.1N limits the crack width under the ${bonded === 1 ? "frequent" : "quasi-permanent"} ` +
          "combination for this kind of member, not under the one given",
      );
    const w_max = bonded === 1 ? w_b : w_u;
    if (w_max === 0)
      throw new NoResult("Table 7.1N asks for decompression under the frequent combination instead of a crack width");
    return { bonded, w_b, w_u, w_max };
  },
  unpublished: "a look-up in a table; its rows are tested",
});

/** Exposure × combination with bonded tendons: under the frequent and the quasi-permanent combination. */
const frequent = { X0_XC1: 0, XC2_XC4: 0, XD_XS: 1 };
const quasiPermanent = { X0_XC1: 0, XC2_XC4: 1, XD_XS: 1 };
const isFrequent = { CHARACTERISTIC: 0, FREQUENT: 1, QUASI_PERMANENT: 0 };
const isQuasiPermanent = { CHARACTERISTIC: 0, FREQUENT: 0, QUASI_PERMANENT: 1 };

/** Must the concrete round the tendons stay compressed? */
const decompressionRequired = stepwise({
  id: "CRACK_CONTROL_EN1992_2004",
  family: "limits",
  summary:
    "Whether decompression is to be checked, by exposure class, bond of the tendons and combination: 1 yes, 0 no",
  notes: [
    ...tableNotes,
    "Where it is 1 all parts of the bonded tendons or ducts lie at least 25 mm inside compressed concrete " +
      "(7.3.1(5)); DECOMPRESSION_LIMIT_EN1992_2004 carries that to the stress of the fibre. No tension at " +
      "the fibre itself, a limit of 0, is on the safe side.",
    "XD1, XD2 and XS are asked for under the frequent combination; the quasi-permanent one with less variable load goes with it.",
  ],
  source,
  params: { exposure: exposureGroup, member: crackedMember, combination },
  result: q.required,
  steps: {
    bonded: { symbol: "bonded", unit: "–", text: "1 for bonded tendons", lookup: { of: "member", values: isBonded } },
    atFrequent: {
      symbol: "fr",
      unit: "–",
      text: "1 where required under the frequent combination",
      lookup: { of: "exposure", values: frequent },
    },
    atQuasi: {
      symbol: "qp",
      unit: "–",
      text: "1 where required under the quasi-permanent combination",
      lookup: { of: "exposure", values: quasiPermanent },
    },
    isFr: {
      symbol: "is fr",
      unit: "–",
      text: "1 for the frequent combination",
      lookup: { of: "combination", values: isFrequent },
    },
    isQp: {
      symbol: "is qp",
      unit: "–",
      text: "1 for the quasi-permanent combination",
      lookup: { of: "combination", values: isQuasiPermanent },
    },
    required: { symbol: "req.", unit: "–", equation: "bonded * (isFr * atFrequent + isQp * atQuasi)" },
  },
  compute: (v) => {
    const bonded = valueFor(isBonded, v.member),
      atFrequent = valueFor(frequent, v.exposure),
      atQuasi = valueFor(quasiPermanent, v.exposure);
    const isFr = valueFor(isFrequent, v.combination),
      isQp = valueFor(isQuasiPermanent, v.combination);
    return { bonded, atFrequent, atQuasi, isFr, isQp, required: bonded * (isFr * atFrequent + isQp * atQuasi) };
  },
  unpublished: "a look-up in a table; its rows are tested",
});

/** What the table asks. */
export const crackControlEn1992 = choosing({
  id: "CRACK_CONTROL_EN1992_2004",
  family: "limits",
  summary: "Max. crack width, or whether decompression is to be checked, by exposure class, bond and combination",
  by: {
    result: choice({
      key: "crackControlResult",
      symbol: "result",
      text: "what is wanted",
      values: [
        { value: "CRACK_WIDTH", text: "max. crack width in mm" },
        { value: "DECOMPRESSION", text: "1 where decompression is to be checked, else 0" },
      ],
    }),
  },
  as: { CRACK_WIDTH: crackWidthLimit, DECOMPRESSION: decompressionRequired },
  order: ["exposure", "member", "combination", "result"],
  result: q.crackControl,
});

/** From the level of the tendon to the fibre. */
export const decompressionLimitEn1992 = formula({
  id: "DECOMPRESSION_LIMIT_EN1992_2004",
  family: "limits",
  summary:
    "Least stress of the tensioned fibre that still leaves concrete under compression round the tendon: a " +
    "negative number or zero, compression positive",
  notes: [
    "The stress is linear over the height: it is zero at the distance a − d_dec from the fibre, where a " +
      "is the distance of the nearest part of tendon or duct from the tensioned fibre and d_dec the " +
      "compressed concrete asked for, recommended 25 mm.",
    "σ_far is the stress of the opposite fibre under the same combination. Where the tendon lies closer " +
      "to the fibre than d_dec, no tension is left: 0.",
    "The tension is still to be below the limit of an uncracked section, on which this straight line rests.",
  ],
  source: { key: "EN1992-1-1:2004", clause: "7.3.1(5)", basis: "seen", readIn: "CE:2021" },
  params: { h: q.sectionHeight, a: q.tendonFromFibre, sigma_far: q.oppositeStress, d_dec: q.decompressionCover },
  limits: ({ h }) => ({ a: { max: h / 2, because: "half the height: the tendon lies on the tensioned side" } }),
  result: q.tensionLimit,
  equation: "-sigma_far * max(a - d_dec, 0) / (h - max(a - d_dec, 0))",
  compute: ({ sigma_far, h, a, d_dec }) => (-sigma_far * Math.max(a - d_dec, 0)) / (h - Math.max(a - d_dec, 0)),
  unpublished: "a straight line over the height; tests put the stress at the tendon back to zero",
});
