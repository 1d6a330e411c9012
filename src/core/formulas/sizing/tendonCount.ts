import { formula } from "../../formula.ts";
import { as } from "../../parameters.ts";
import { q } from "../../quantities/index.ts";
import { mechanics } from "../mechanics.ts";

/** How many strands, wires, bars or tendons a force needs. */
export const tendonCount = formula({
  id: "TENDON_COUNT",
  family: "sizing",
  summary: "Number of strands, wires, bars or tendons for a force, rounded up",
  notes: ["Force and stress at the same time: both at the jack, both after immediate losses, or both at the end."],
  source: mechanics,
  params: {
    A_p: as(q.tendonArea, { text: "area of one strand, wire, bar or tendon", above: 0 }),
    P: as(q.prestressForce, { symbol: "P", text: "force of all of them", above: 0 }),
    sigma_p: as(q.tendonStress, { symbol: "σ_p", text: "stress of each", above: 0 }),
  },
  result: q.tendonsNeeded,
  equation: "ceil(P / (A_p * sigma_p))",
  compute: ({ A_p, P, sigma_p }) => {
    const exact = P / (A_p * sigma_p);
    const whole = Math.round(exact);
    // What exceeds a whole number by the last bits of a division alone needs no further tendon.
    return whole > 0 && Math.abs(exact - whole) <= 1e-12 * whole ? whole : Math.ceil(exact);
  },
  unpublished: "a quotient rounded up; the one result found was read second-hand",
});
