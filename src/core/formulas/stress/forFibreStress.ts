import { choosing } from "../../choosing.ts";
import { NoResult } from "../../errors.ts";
import { stepwise } from "../../formula.ts";
import { as, choice, format } from "../../parameters.ts";
import { q } from "../../quantities/index.ts";
import { mechanics } from "../mechanics.ts";

const target = as(q.fibreStress, { symbol: "σ_c", text: "stress wanted in the fibre, compression positive" });

/** FIBRE_STRESS solved for the force. */
const forceWanted = stepwise({
  id: "PRESTRESS_FOR_FIBRE_STRESS",
  family: "stress",
  summary: "Prestressing force that brings a fibre to a wanted stress, compression positive",
  notes: [
    "y is positive below the centroid. No result where the force would have to push, or where the fibre's stress does not depend on it.",
  ],
  source: mechanics,
  params: { A: q.area, I: q.secondMoment, e: q.eccentricity, sigma_c: target, M: q.moment, y: q.fibreDistance },
  result: q.prestressForce,
  steps: {
    lacking: { symbol: "Δσ_c", unit: "MPa", equation: "sigma_c + M * y / I", text: "stress the prestress has to give" },
    share: {
      symbol: "c",
      unit: "–",
      equation: "1 + A * e * y / I",
      text: "stress of the fibre over the mean stress P/A",
    },
    P: { symbol: "P", unit: "kN", equation: "lacking * A / share" },
  },
  compute: ({ sigma_c, e, M, A, I, y }) => {
    const lacking = sigma_c + (M * y) / I;
    const share = 1 + (A * e * y) / I;
    if (share === 0) throw new NoResult("the tendon lies at the kern point of this fibre: no force changes its stress");
    const P = (lacking * A) / share;
    if (P < 0) throw new NoResult(`no tension in the tendon gives σc; it would take a push of ${format(-P / 1000)} kN`);
    return { lacking, share, P };
  },
});

/** FIBRE_STRESS solved for the eccentricity. */
const eccentricityWanted = stepwise({
  id: "PRESTRESS_FOR_FIBRE_STRESS",
  family: "stress",
  summary: "Eccentricity of a prestressing force that brings a fibre to a wanted stress, positive below the centroid",
  notes: [
    "y is positive below the centroid; no result for the fibre at the centroid, y = 0. Whether the tendon " +
      "finds room there is another question.",
  ],
  source: mechanics,
  params: {
    sigma_c: target,
    P: as(q.prestressForce, { above: 0 }),
    M: q.moment,
    A: q.area,
    I: q.secondMoment,
    y: q.fibreDistance,
  },
  result: q.eccentricity,
  steps: {
    lacking: {
      symbol: "Δσ_c",
      unit: "MPa",
      equation: "sigma_c - P / A + M * y / I",
      text: "stress the eccentricity has to give",
    },
    e: { symbol: "e", unit: "mm", equation: "lacking * I / (P * y)" },
  },
  compute: ({ sigma_c, P, M, A, I, y }) => {
    if (y === 0) throw new NoResult("the stress at the centroid, y = 0, does not depend on the eccentricity");
    const lacking = sigma_c - P / A + (M * y) / I;
    return { lacking, e: (lacking * I) / (P * y) };
  },
});

/** FIBRE_STRESS solved for the force or for the eccentricity. */
export const prestressForFibreStress = choosing({
  id: "PRESTRESS_FOR_FIBRE_STRESS",
  family: "stress",
  summary: "Prestressing force, or its eccentricity, that brings a fibre to a wanted stress, compression positive",
  by: {
    result: choice({
      key: "forFibreResult",
      symbol: "result",
      text: "what is wanted",
      values: [
        { value: "FORCE", text: "force in kN, at the eccentricity e" },
        { value: "ECCENTRICITY", text: "eccentricity in mm, of the force P" },
      ],
    }),
  },
  as: { FORCE: forceWanted, ECCENTRICITY: eccentricityWanted },
  order: ["A", "I", "sigma_c", "M", "y", "result", "e", "P"],
  result: q.wantedForFibre,
});
