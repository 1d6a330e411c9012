import { InputError } from "../../errors.ts";
import { valueBetween } from "../../lookup.ts";
import { as, format } from "../../parameters.ts";
import { q } from "../../quantities/index.ts";
import { creepByAge, relaxationByStress } from "../is1343/tables.ts";
import { relaxationExponents } from "../relaxation/relaxationTimeFactor.ts";
import { timeLaw } from "./law.ts";

/** Half after a month and three quarters after six: t^p/(c + t^p) goes through both. */
const month = 30;
const power = Math.log(3) / Math.log(6);
const half = month ** power;
const grown = (days: number): number => 1 - half / (half + days ** power);

/** Relaxation over time as a part of that after 1000 hours; the standard's table is for stress-relieved steel. */
const relaxationPower = relaxationExponents.NORMAL;
const thousandHours = 1000 / 24;
const tableEnd = relaxationByStress.at(-1)![0];

/** The final values of the standard's tables, spread over time. */
export const lawIs1343 = timeLaw({
  name: "IS1343_1980",
  says: "with the values of IS 1343:1980 spread over time",
  notes: [
    "Creep coefficient by the age at each increment, from the standard's table, linear in the logarithm " +
      "of the age; after a year that of a year. A first event before 7 days is refused.",
    "Half of creep and of shrinkage come in the first month and three quarters in the first six; between " +
      "and beyond, t^p/(c + t^p) through these two points, which is practice. Shrinkage starts at the first " +
      "event.",
    "Relaxation: the table's loss after 1000 h for the stress that constant length would have kept, times " +
      "(t/1000 h)^0.12, up to the multiple given; 1 keeps the table's value as the final one.",
    "One modulus of concrete at all ages.",
  ],
  source: { key: "IS1343:1980", clause: "5.2.4, 5.2.5, 18.5.2", basis: "memory-high" },
  empirical: "tables over the age in days and the stress in MPa",
  needed: {
    E_c: q.elasticModulusConcrete,
    eps_cs: as(q.shrinkageStrain, { text: "shrinkage strain still to come at the first event, in the end" }),
    f_pk: as(q.tendonTensileStrength, {
      symbol: "f_p",
      text: "characteristic tensile strength of the prestressing steel",
    }),
  },
  optional: { r: as(q.relaxationMultiple, { default: 1 }) },
  limits: ({ f_pk }) => ({
    sigma_p0: {
      max: f_pk,
      because: "the tensile strength",
    },
  }),
  materials: ({ E_c, eps_cs, f_pk, r }, first) => {
    if (first < 7)
      throw new InputError(
        "events",
        `ti (age of concrete) in row 1 of the range = ${format(first)} days is below 7 days, where the table ` +
          "of creep begins; allowed: at least 7 days",
      );
    return {
      compliance: (loaded) => {
        const theta = valueBetween(creepByAge, Math.log10(loaded));
        return (now) => (1 + theta * grown(now - loaded)) / E_c;
      },
      shrinkage: (age) => eps_cs * grown(age - first),
      relaxation: (stress, earlier, days) => {
        // Above its end the table's last value is held: the tendon is then stressed beyond every limit.
        const after1000 = valueBetween(relaxationByStress, Math.min(stress / f_pk, tableEnd));
        if (earlier >= r * after1000) return 0;
        const equivalent = thousandHours * (earlier / after1000) ** (1 / relaxationPower);
        return Math.max(0, after1000 * Math.min(r, ((equivalent + days) / thousandHours) ** relaxationPower) - earlier);
      },
    };
  },
});
