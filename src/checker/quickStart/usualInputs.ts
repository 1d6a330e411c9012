import { isEn, isPost, type Inputs, type Template } from "../../sheet/index.ts";
import type { Answers } from "./answers.ts";
import { computed } from "./sections.ts";
import { kindInputs } from "./steelKind.ts";

/** The jacking stress: a little below the standard's limit, rounded down to 10 MPa. */
export function jackingStress(template: Template, product: string): number {
  const fpk = computed("TENDON_PRODUCT", [product, "TENSILE_STRENGTH"]);
  const limit = isEn(template)
    ? computed("TENDON_STRESS_LIMIT_EN1992_2004", [
        fpk,
        computed("TENDON_PRODUCT", [product, "PROOF_STRESS"]),
        "JACKING",
      ])
    : 0.76 * fpk;
  return Math.floor((0.96 * limit) / 10) * 10;
}

/** Strength at transfer over that at 28 days: what 14 days give, or 3 days of a rapid cement. */
export const shareAtTransfer = (template: Template): number => (isEn(template) && !isPost(template) ? 0.58 : 0.75);

/** Ages, strengths and factors nobody is asked for. Common practice, no source: each is marked as assumed on the sheet. */
export function usual(template: Template, answers: Answers): Inputs {
  const { fck, h } = answers;
  const atTransfer = Math.floor(shareAtTransfer(template) * fck);
  const own: Inputs = isEn(template)
    ? {
        fckt: atTransfer,
        psi1: 0.5,
        psi2: 0.3,
        t0: isPost(template) ? 14 : 3,
        ...(!isPost(template) && { cement: "R" }),
      }
    : {
        fci: Math.min(60, Math.max(isPost(template) ? 30 : 40, atTransfer)),
        t0: isPost(template) ? 14 : 7,
      };
  return {
    tg: 60,
    tq: 365,
    tBed: 24 * (isEn(template) ? 3 : 7) + 24,
    edge: Math.round(0.08 * h),
    ...own,
    ...(isPost(template) && { fcmFull: atTransfer }),
    ...kindInputs(template, answers),
  };
}
