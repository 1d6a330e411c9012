import { cautions } from "../../cautions.ts";
import { spilling } from "../../formula.ts";
import { InputError } from "../../errors.ts";
import { as, format, table } from "../../parameters.ts";
import { q } from "../../quantities/index.ts";
import { mechanics } from "../mechanics.ts";
import { elongationStage } from "./elongationStage.ts";
import { gaugePressure } from "./gaugePressure.ts";
import { forceLimit, jack, ratingCaution } from "./jack.ts";

const share = as(q.forceShare, { symbol: "P_i/P", text: "part of the jacking force at the stage", above: 0 });
const stages = table({
  key: "stressingStages",
  symbol: "stages",
  text: "parts of the jacking force at which gauge and elongation are read, rising; the first once the slack is out",
  columns: { share },
  minRows: 2,
});

/** What to read at each stage, to compare with the stressing record. */
export const stressingTable = spilling({
  id: "STRESSING_TABLE",
  family: "stressing",
  summary: "Stressing table: force, gauge pressure and expected elongation at each stage of the jacking force",
  notes: [
    "A row a stage: part of the force, force in the tendon behind the anchorage, pressure on the gauge, " +
      "elongation since the first stage, elongation since the stage before.",
    "Friction takes the same part at every force, so the elongation grows with the force. The force that is reached is the last stage's.",
    cautions.stressing,
  ],
  source: mechanics,
  params: {
    ...jack,
    P: as(q.prestressForce, { symbol: "P_0", text: "jacking force behind the anchorage" }),
    elongation: as(q.elongation, { symbol: "Δl", text: "elongation calculated for the jacking force", min: 0 }),
    stages,
  },
  limits: forceLimit,
  cautions: ratingCaution,
  columns: {
    share,
    force: as(q.prestressForce, { symbol: "P_i", text: "force in the tendon behind the anchorage" }),
    pressure: gaugePressure.result,
    since: { ...elongationStage.result, text: "elongation since the first stage" },
    step: { ...elongationStage.result, symbol: "Δl_i − Δl_i−1", text: "elongation since the stage before" },
  },
  governing:
    "p_i = \\frac{P_i}{A_{ram}(1 - \\eta_j)(1 - \\eta_a)},\\quad \\Delta l_i = \\frac{P_i - P_1}{P}\\,\\Delta l",
  compute: ({ stages: list, P, A_ram, eta_j, eta_a, elongation }) => {
    const first = list[0]!.share;
    return list.map(({ share: part }, i) => {
      const before = i === 0 ? first : list[i - 1]!.share;
      if (part < before)
        throw new InputError(
          "stages",
          `stage ${i + 1} at ${format(part)} of the force lies below stage ${i} at ${format(before)}; stages must rise`,
        );
      const since = (to: number, from: number): number => elongationStage.compute({ P_i: to, psi_0: from, elongation });
      return {
        share: part,
        force: part * P,
        pressure: gaugePressure.compute({ P_i: part, P, A_ram, eta_j, eta_a }),
        since: since(part, first),
        step: since(part, before),
      };
    });
  },
  unpublished: "GAUGE_PRESSURE and ELONGATION_STAGE, row by row.",
});
