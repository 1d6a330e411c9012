import type { Formula } from "../../core/index.ts";

/**
 * Bounds that a declaration computes from the other arguments (`limits`), as equations in the units that its equations
 * read. The reasons are the declaration's own. A test holds each to what the declaration computes.
 */
export interface LimitEquation {
  readonly of: string;
  readonly min?: string;
  readonly max?: string;
  /** Where it holds at all. */
  readonly where?: string;
  /** Where the function is several: for which values of the choice. */
  readonly as?: readonly string[];
}

const toLength: readonly LimitEquation[] = [{ of: "x", max: "L" }];
const fromLoading: readonly LimitEquation[] = [{ of: "t", min: "t_0" }];
const fromCuring: readonly LimitEquation[] = [{ of: "t", min: "t_s" }];
const strut: readonly LimitEquation[] = [{ of: "sigma_cp", max: "0.99 * alpha_cc * f_ck / gamma_C" }];
const strutAndCot: readonly LimitEquation[] = [...strut, { of: "cot_max", min: "cot_min" }];

const equations: Readonly<Record<string, readonly LimitEquation[]>> = {
  ADDED_TENSION_EN1992_2004: [{ of: "M_max", min: "M_Ed" }],
  ANCHORAGE_LENGTH_EN1992_2004: [{ of: "sigma_pmInf", max: "sigma_pd" }],
  ANCHORED_STRESS_EN1992_2004: [
    { of: "l_bpd", min: "l_pt2" },
    { of: "sigma_pd", min: "sigma_pmInf" },
  ],
  BEARING_LIMIT_IS1343_1980: [{ of: "A_br", min: "A_pun" }],
  BEARING_RESISTANCE_EN1992_2004: [{ of: "A_c1", min: "A_c0" }],
  BOND_FRACTION: toLength,
  BOX_SECTION: [
    { of: "t_top", max: "h" },
    { of: "t_bot", max: "h - t_top" },
    { of: "t_w", max: "b / 2" },
  ],
  BURSTING_FORCE_EN1992_2004: [{ of: "a", max: "b" }],
  BURSTING_FORCE_JTG3362_2018: [
    { of: "a", max: "h" },
    { of: "e", min: "-h / 2", max: "h / 2" },
  ],
  CABLE_ZONE: [
    { of: "f_t", max: "f_c" },
    { of: "y_b", max: "0.999 * h" },
  ],
  COMPRESSION_LIMIT_IS1343_1980: [
    { of: "f_ci", min: 'equalText(method, "PRE") ? 40 : 30', max: "60", as: ["TRANSFER"] },
    { of: "f_ck", min: 'equalText(method, "PRE") ? 40 : 30', max: "60", as: ["TRANSFER"] },
  ],
  CREEP_COEFFICIENT_ACI209R_1992: [
    { of: "t_0", min: 'equalText(curing, "MOIST") ? 7 : 1' },
    { of: "t", min: "t_0" },
  ],
  CREEP_COEFFICIENT_CEBFIP_1990: fromLoading,
  CREEP_COEFFICIENT_CEBFIP_1999: fromLoading,
  CREEP_COEFFICIENT_EN1992_2004: fromLoading,
  DECOMPRESSION_LIMIT_EN1992_2004: [{ of: "a", max: "h / 2" }],
  DEFLECTED_ECCENTRICITY: [
    { of: "x", max: "L" },
    { of: "x_dev", max: "L / 2" },
  ],
  DEFLECTION_POINT_LOAD: [
    { of: "a", max: "L" },
    { of: "x", max: "L" },
  ],
  DEFLECTION_UNIFORM: [{ of: "a", max: "L / 2" }],
  DRYING_SHRINKAGE_EN1992_2004: fromCuring,
  ELONGATION_FROM_READINGS: [
    { of: "p_2", min: "p_1 * (1 + 0.000000001) + 0.000000001" },
    { of: "l_2", min: "l_1" },
  ],
  GAUGE_PRESSURE: [{ of: "P", max: "200 * (A_ram * (1 - eta_j) * (1 - eta_a))" }],
  HEAT_CURED_STRENGTH_EN1992_2004: [
    { of: "t_p", max: "t" },
    { of: "f_cmp", max: "f_cm" },
  ],
  HOLLOW_SLAB: [
    { of: "d", max: "min(0.98 * h, 0.98 * b / n)" },
    { of: "y_v", min: "d / 2", max: "h - d / 2" },
  ],
  HYPOTHETICAL_TENSION_IS1343_1980: [{ of: "f_ck", min: 'equalText(tendons, "POST") ? 30 : 40' }],
  I_SECTION: [
    { of: "t_top", max: "h" },
    { of: "t_bot", max: "h - t_top" },
    { of: "b_w", max: "min(b_top, b_bot)" },
  ],
  LATERAL_STRAIN_WEDGE: [{ of: "sigma", max: "sigma_r" }],
  MOMENT_RESISTANCE_IS1343_1980: [
    { of: "b_w", max: "b" },
    { of: "D_f", max: "2 * d" },
    { of: "f_pe", min: "0.45 * f_p" },
  ],
  MOMENT_UNIFORM: [
    { of: "x", min: "0", max: "L", as: ["ENDS"] },
    { of: "a", max: "L / 2", as: ["OVERHANG"] },
    { of: "x", max: "L", as: ["OVERHANG"] },
  ],
  NONLINEAR_CREEP_COEFFICIENT_EN1992_2004: [{ of: "sigma_c", max: "f_ckt0" }],
  PARTIAL_FORCE_EN1992_2004: [{ of: "f_cmt", min: "k_4 * f_full" }],
  PRESTRESS_CAMBER: [{ of: "a", max: "L / 2" }],
  RELAXATION_LOSS_COMPONENT: [{ of: "f_pi", min: "0.6 * f_pu", max: "(low == 1 ? 0.8 : 0.75) * f_pu" }],
  RELAXATION_LOSS_EN1992_2004: [{ of: "sigma_pi", max: "f_pk" }],
  RELAXATION_LOSS_INTRINSIC: [
    { of: "f_pi", min: "0.55 * f_py", max: "f_py" },
    { of: "t_1", max: "t_2" },
  ],
  RELAXATION_LOSS_IS1343_1980: [{ of: "f_pi", max: "f_p" }],
  RELAXATION_LOSS_STAGED_EN1992_2004: [{ of: "sigma_pi", max: "f_pk - earlier" }],
  SHEAR_RESISTANCE_CRACKED_IS1343_1980: [{ of: "f_pe", max: "0.6 * f_p" }],
  SHEAR_RESISTANCE_LINKS_EN1992_2004: strutAndCot,
  SHEAR_UNIFORM: toLength,
  SHRINKAGE_STRAIN_ACI209R_1992: [
    { of: "t_c", max: 'equalText(curing, "MOIST") ? 90 : 3' },
    { of: "t", min: "t_c" },
  ],
  SHRINKAGE_STRAIN_CEBFIP_1990: fromCuring,
  SHRINKAGE_STRAIN_CEBFIP_1999: fromCuring,
  SHRINKAGE_STRAIN_EN1992_2004: fromCuring,
  SPALLING_FORCE_JTG3362_2018: [{ of: "s", max: "h" }],
  STRUT_COTANGENT_EN1992_2004: strutAndCot,
  STRUT_RESISTANCE_EN1992_2004: strut,
  TENSION_LIMIT_IS1343_1980: [{ of: "f_t3", max: "-0.1", where: 'equalText(type, "3")' }],
  THERMAL_LOSS_EN1992_2004: [{ of: "T_0", max: "T_max" }],
  TRANSMISSION_LENGTH_IS1343_1980: [{ of: "f_ci", min: "35" }],
  T_SECTION: [
    { of: "t_f", max: "h" },
    { of: "b_w", max: "b_f" },
  ],
  UNITS_ON_LINE: [{ of: "ends", max: "L_bed" }],
};

/** The equations of a formula's limits, for one value of its choice; undefined where it has limits that none are given for. */
export function limitEquations(f: Formula, variant?: string): readonly LimitEquation[] | undefined {
  if (!f.limits) return [];
  const own = equations[f.id]?.filter(({ as }) => as === undefined || (variant !== undefined && as.includes(variant)));
  return own && own.length > 0 ? own : undefined;
}

/** Every way to choose among a formula's arguments. */
function* choicesOf(f: Formula): Generator<Readonly<Record<string, unknown>>> {
  const all = Object.entries(f.params).map(([name, parameter]) => {
    const values = parameter.kind === "choice" ? parameter.values.map(({ value }) => value as unknown) : [1];
    return { name, values };
  });
  const count = all.reduce((product, { values }) => product * values.length, 1);
  for (let i = 0; i < count; i++) {
    let rest = i;
    yield Object.fromEntries(
      all.map(({ name, values }) => {
        const value = values[rest % values.length];
        rest = Math.floor(rest / values.length);
        return [name, value];
      }),
    );
  }
}

/** The declaration's own reason for a limit. */
export function reasonOfLimit(f: Formula, of: string): string {
  for (const values of choicesOf(f)) {
    const because = f.limits!(values as never)[of]?.because;
    if (because !== undefined) return because;
  }
  throw new Error(`${f.id} has no limit of ${of}`);
}

/** A call that the computation itself refuses: the condition as an equation, and the words, with numbers in between. */
export interface RefusalEquation {
  readonly where: string;
  /** Words, and equations of numbers as messages write them. */
  readonly says: readonly (string | { readonly shown: string })[];
  /** Of which argument the words are. */
  readonly about?: string;
  readonly as?: readonly string[];
}

/** The combination that the table of crack widths names. */
const otherCombination = (named: string): RefusalEquation["says"] => [
  `Table 7.1N limits the crack width under the ${named} combination for this kind of member, not under the one given`,
];

const refusals: Readonly<Record<string, readonly RefusalEquation[]>> = {
  CRACK_CONTROL_EN1992_2004: [
    {
      where: 'bonded == 1 and not equalText(combination, "FREQUENT")',
      says: otherCombination("frequent"),
      as: ["CRACK_WIDTH"],
    },
    {
      where: 'bonded == 0 and not equalText(combination, "QUASI_PERMANENT")',
      says: otherCombination("quasi-permanent"),
      as: ["CRACK_WIDTH"],
    },
    {
      where: "w_max == 0",
      says: ["Table 7.1N asks for decompression under the frequent combination instead of a crack width"],
      as: ["CRACK_WIDTH"],
    },
  ],
  MOMENT_RESISTANCE_IS1343_1980: [
    {
      where: "r > 0.4",
      says: [
        "A_p f_p/(b d f_ck) is ",
        { shown: "r" },
        "; the table ends at 0.4: less steel or more concrete, or strain compatibility",
      ],
    },
  ],
  MOMENT_RESISTANCE_UNBONDED_IS1343_1980: [
    {
      where: "r < 0.025 or r > 0.2",
      says: ["A_p f_pe/(b d f_ck) is ", { shown: "r" }, "; the table runs from 0.025 to 0.2"],
    },
  ],
  TENSION_UTILISATION: [
    {
      where: "pull > 0 and hold <= 0",
      says: ["neither σ_p nor σ_M holds against the pull, and f_t allows no tension"],
    },
  ],
  PRESTRESS_FOR_FIBRE_STRESS: [
    {
      where: "share == 0",
      says: ["the tendon lies at the kern point of this fibre: no force changes its stress"],
      as: ["FORCE"],
    },
    {
      where: "P < 0",
      says: ["no tension in the tendon gives σc; it would take a push of ", { shown: "-P / 1000" }, " kN"],
      as: ["FORCE"],
    },
    {
      where: "y == 0",
      says: ["the stress at the centroid, y = 0, does not depend on the eccentricity"],
      as: ["ECCENTRICITY"],
    },
  ],
  STRUT_COTANGENT_EN1992_2004: [
    {
      where: "part > 1",
      says: [
        "the struts hold ",
        { shown: "V_45 / 1000" },
        " kN at 45°, less than V_Ed = ",
        { shown: "V_Ed / 1000" },
        " kN",
      ],
    },
    {
      where: "cot < cot_min",
      says: ["the struts hold V_Ed only at cot θ = ", { shown: "cot" }, ", below its limit"],
    },
  ],
  WEB_WIDTH_LESS_DUCTS_EN1992_2004: [
    { where: "b <= 0", says: ["the ducts leave no width of the web of ", { shown: "b_w" }, " mm"] },
  ],
  SHEAR_RESISTANCE_UNCRACKED_EN1992_2004: [
    {
      where: 'equalText(method, "PRE") and (equalText(l_x_cell, "") or equalText(l_pt2_cell, ""))',
      says: ["l_x or l_pt2 is missing; a pre-tensioned member needs both"],
      about: "l_x",
    },
  ],
};

/** What the computation of a formula refuses, for one value of its choice. */
export function refusalEquations({ id }: Pick<Formula, "id">, variant?: string): readonly RefusalEquation[] {
  return (refusals[id] ?? []).filter(({ as }) => as === undefined || (variant !== undefined && as.includes(variant)));
}
