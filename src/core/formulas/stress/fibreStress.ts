import { formula } from "../../formula.ts";
import { as } from "../../parameters.ts";
import { q } from "../../quantities/index.ts";
import { mechanics } from "../mechanics.ts";

const force = as(q.prestressForce, { text: "prestressing force, 0 for loads alone" });
const fibre = { A: q.area, I: q.secondMoment, e: q.eccentricity, P: force, M: q.moment };

export const fibreStress = formula({
  id: "FIBRE_STRESS",
  family: "stress",
  summary: "Concrete stress of a fibre under prestress and moment; compression positive",
  notes: ["y is the distance of the fibre from the centroid, positive below: y_b for the soffit, y_b − h for the top."],
  source: mechanics,
  params: {
    ...fibre,
    P: as(force, { min: -1e6, text: `${force.text}, negative for a force lost` }),
    y: q.fibreDistance,
  },
  cautions: ({ P }) => (P < 0 ? ["P is negative: a force taken off the section"] : []),
  result: q.fibreStress,
  equation: "P / A + P * e * y / I - M * y / I",
  compute: ({ P, e, M, A, I, y }) => P / A + (P * e * y) / I - (M * y) / I,
});

export const concreteStressAtTendon = formula({
  id: "CONCRETE_STRESS_AT_TENDON",
  family: "stress",
  summary: "Concrete stress at the level of the tendons under prestress and moment; compression positive",
  source: mechanics,
  params: fibre,
  result: q.fibreStress,
  equation: "P / A + P * e^2 / I - M * e / I",
  compute: ({ P, e, M, A, I }) => P / A + (P * e * e) / I - (M * e) / I,
});
