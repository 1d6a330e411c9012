import { choosing } from "../../choosing.ts";
import { formula, stepwise } from "../../formula.ts";
import { valueFor } from "../../lookup.ts";
import { as, choice } from "../../parameters.ts";
import { q } from "../../quantities/index.ts";
import { memberType, method, stressZone, temporaryTension, transmittedTendon } from "./choices.ts";

const from = { PRE: 40, POST: 30 };
const atFrom = { PRE: 0.51, POST: 0.54 };
const at60 = { PRE: 0.44, POST: 0.37 };

/** Compression in bending at transfer. */
const compressionAtTransfer = stepwise({
  id: "COMPRESSION_LIMIT_IS1343_1980",
  family: "limits",
  summary: "Greatest concrete compression in bending at transfer, compression positive",
  notes: [
    "A straight line over the cube strength: post-tensioned from 30, pre-tensioned from 40 MPa, both to 60 MPa. Outside it is refused.",
    "Not established: whether the diagram is entered with the strength at transfer or with the grade of " +
      "the concrete. The lower factor of both readings is used; it multiplies the strength at transfer.",
  ],
  source: { key: "IS1343:1980", clause: "22.8.2 Fig. 8", basis: "memory-medium" },
  params: { f_ci: q.cubeStrengthAtTransfer, f_ck: q.cubeStrength, method },
  limits: (v) => {
    const range = { min: valueFor(from, v.method), max: 60, because: "the range of the diagram" };
    return { f_ci: range, f_ck: range };
  },
  result: q.compressionLimit,
  steps: {
    f_0: { symbol: "f_0", unit: "MPa", text: "where the line begins", lookup: { of: "method", values: from } },
    c_0: { symbol: "c_0", unit: "–", text: "factor there", lookup: { of: "method", values: atFrom } },
    c_60: { symbol: "c_60", unit: "–", text: "factor at 60 MPa", lookup: { of: "method", values: at60 } },
    c_ci: {
      symbol: "c(f_ci)",
      unit: "–",
      text: "factor read at the strength at transfer",
      equation: "c_0 + (c_60 - c_0) * (f_ci - f_0) / (60 - f_0)",
    },
    c_ck: {
      symbol: "c(f_ck)",
      unit: "–",
      text: "factor read at the grade",
      equation: "c_0 + (c_60 - c_0) * (f_ck - f_0) / (60 - f_0)",
    },
    c: { symbol: "c", unit: "–", text: "the lower of both readings", equation: "min(c_ci, c_ck)" },
    limit: { symbol: "σ_c,max", unit: "MPa", equation: "c * f_ci" },
  },
  compute: (v) => {
    const f_0 = valueFor(from, v.method),
      c_0 = valueFor(atFrom, v.method),
      c_60 = valueFor(at60, v.method);
    const factor = (strength: number): number => c_0 + ((c_60 - c_0) * (strength - f_0)) / (60 - f_0);
    const c_ci = factor(v.f_ci),
      c_ck = factor(v.f_ck);
    const c = Math.min(c_ci, c_ck);
    return { f_0, c_0, c_60, c_ci, c_ck, c, limit: c * v.f_ci };
  },
  empirical: "a diagram over the strength in MPa",
  unpublished: "a diagram from memory; its ends are tested",
});

/** How far creep may be taken as linear. */
export const linearCreepLimitIs1343 = formula({
  id: "LINEAR_CREEP_LIMIT_IS1343_1980",
  family: "limits",
  summary: "Greatest sustained concrete stress for which creep is in proportion to the stress, compression positive",
  notes: [
    "Above it this standard has no rule for creep, as far as it is known here: losses by CREEP_LOSS_IS1343_1980 are then too small.",
    "Not established: whether the strength at loading or that at 28 days is meant. This function takes " +
      "the strength at transfer, the lower one.",
  ],
  source: { key: "IS1343:1980", clause: "5.2.5", basis: "second-hand", readIn: "IS1343-NOTES" },
  params: { f_ci: q.cubeStrengthAtTransfer },
  result: q.compressionLimit,
  equation: "f_ci / 3",
  compute: ({ f_ci }) => f_ci / 3,
  unpublished: "one ratio, read second-hand",
});

const zoneAt30 = { I: 0.41, II: 0.34 };
const zoneAt60 = { I: 0.35, II: 0.27 };

/** Compression in bending in service. */
const compressionInService = stepwise({
  id: "COMPRESSION_LIMIT_IS1343_1980",
  family: "limits",
  summary: "Greatest concrete compression in bending in service, compression positive",
  notes: ["A straight line over the characteristic cube strength from 30 to 60 MPa. Outside it is refused."],
  source: { key: "IS1343:1980", clause: "22.8.1 Fig. 7", basis: "memory-medium" },
  params: { f_ck: q.cubeStrength, zone: stressZone },
  result: q.compressionLimit,
  steps: {
    c_30: { symbol: "c_30", unit: "–", text: "factor at 30 MPa", lookup: { of: "zone", values: zoneAt30 } },
    c_60: { symbol: "c_60", unit: "–", text: "factor at 60 MPa", lookup: { of: "zone", values: zoneAt60 } },
    c: { symbol: "c", unit: "–", text: "factor on the line", equation: "c_30 + (c_60 - c_30) * (f_ck - 30) / 30" },
    limit: { symbol: "σ_c,max", unit: "MPa", equation: "c * f_ck" },
  },
  compute: (v) => {
    const c_30 = valueFor(zoneAt30, v.zone),
      c_60 = valueFor(zoneAt60, v.zone);
    const c = c_30 + ((c_60 - c_30) * (v.f_ck - 30)) / 30;
    return { c_30, c_60, c, limit: c * v.f_ck };
  },
  empirical: "a diagram over the strength in MPa",
  unpublished: "a diagram from memory; its ends are tested",
});

/** Compression in bending. */
export const compressionLimitIs1343 = choosing({
  id: "COMPRESSION_LIMIT_IS1343_1980",
  family: "limits",
  summary: "Max. concrete compression in bending at transfer or in service, compression positive",
  notes: [
    "COMPRESSION_LIMIT_DIRECT_IS1343_1980 follows from this limit, not from the strength: a function of its own.",
  ],
  by: {
    situation: choice({
      key: "compressionSituationIs1343",
      symbol: "situation",
      text: "when the limit holds",
      values: [
        { value: "TRANSFER", text: "at transfer, by the strength then and the way of prestressing" },
        { value: "SERVICE", text: "in service, by the zone" },
      ],
    }),
  },
  as: { TRANSFER: compressionAtTransfer, SERVICE: compressionInService },
  order: ["f_ck", "situation", "f_ci", "method", "zone"],
});

const allowed = { 1: 0, 2: 3, 3: 0 };
const hypothetical = { 1: 0, 2: 0, 3: 1 };
const added = { NO: 0, YES: 1.5 };

/** Tension in service by the type of member. */
export const tensionLimitIs1343 = stepwise({
  id: "TENSION_LIMIT_IS1343_1980",
  family: "limits",
  summary: "Least concrete stress in service by the type of member: zero or a negative number, compression positive",
  notes: [
    "Type 2: 3 MPa, or 4.5 MPa where part of it is temporary and the permanent stress stays compressive.",
    "Type 3 takes the hypothetical tension given, from your copy of the standard: its table was not read.",
  ],
  source: { key: "IS1343:1980", clause: "22.7.1", basis: "memory-high" },
  params: {
    type: memberType,
    temporary: temporaryTension,
    f_t3: as(q.tensionLimit, {
      symbol: "f_t3",
      text: "hypothetical tension of type 3, a negative number; unused for types 1 and 2",
      max: 0,
      default: 0,
    }),
  },
  limits: ({ type }) =>
    type === 3 ? { f_t3: { max: -0.1, because: "a member of type 3 needs its hypothetical tension" } } : {},
  result: q.tensionLimit,
  steps: {
    base: { symbol: "f_t", unit: "MPa", text: "tension allowed", lookup: { of: "type", values: allowed } },
    more: {
      symbol: "Δf_t",
      unit: "MPa",
      text: "more for a temporary part",
      lookup: { of: "temporary", values: added },
    },
    third: { symbol: "type 3", unit: "–", text: "1 for type 3", lookup: { of: "type", values: hypothetical } },
    limit: { symbol: "σ_c,min", unit: "MPa", equation: "third == 1 ? f_t3 : base > 0 ? -(base + more) : -base" },
  },
  compute: (v) => {
    const base = valueFor(allowed, v.type),
      more = valueFor(added, v.temporary),
      third = valueFor(hypothetical, v.type);
    return { base, more, third, limit: third === 1 ? v.f_t3 : base > 0 ? -(base + more) : 0 };
  },
  unpublished: "table values, from memory",
});

const multiples = { WIRE: 100, CRIMPED_WIRE: 65, STRAND: 30 };

/** Transmission by multiples of the diameter. */
export const transmissionLengthIs1343 = stepwise({
  id: "TRANSMISSION_LENGTH_IS1343_1980",
  family: "transmission",
  summary: "Transmission length as a multiple of the diameter, in mm",
  notes: [
    "For gradual release and a cube strength at transfer of at least 35 MPa; below that it is refused. Sudden release needs more.",
  ],
  source: { key: "IS1343:1980", clause: "18.6.1.1", basis: "memory-medium" },
  params: { phi: q.strandDiameter, tendon: transmittedTendon, f_ci: q.cubeStrengthAtTransfer },
  limits: () => ({ f_ci: { min: 35, because: "the strength for which the multiples hold" } }),
  result: q.transmissionLength,
  steps: {
    m: { symbol: "m", unit: "–", text: "multiple of the diameter", lookup: { of: "tendon", values: multiples } },
    l_t: { symbol: "l_t", unit: "mm", equation: "m * phi" },
  },
  compute: (v) => {
    const m = valueFor(multiples, v.tendon);
    return { m, l_t: m * v.phi };
  },
  unpublished: "its published result is recalled, not read",
});
