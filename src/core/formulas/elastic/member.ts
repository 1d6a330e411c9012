import { as } from "../../parameters.ts";
import { q } from "../../quantities/index.ts";

/** The member that shortens while tendon after tendon is stressed: geometry, material, action, in this order after the tendons. */
export const shorteningMember = {
  A: q.area,
  I: q.secondMoment,
  E_p: q.tendonModulus,
  E_c: as(q.elasticModulusConcrete, { symbol: "E_c(t)", text: "modulus of elasticity of the concrete at stressing" }),
  M_g: as(q.moment, { symbol: "M_g", text: "self-weight moment" }),
};
