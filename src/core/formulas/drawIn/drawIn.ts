import { choosing } from "../../choosing.ts";
import { q } from "../../quantities/index.ts";
import { drawInLength } from "./drawInLength.ts";
import { drawInLengthTable } from "./drawInLengthTable.ts";
import { drawInLengthUniform } from "./drawInLengthUniform.ts";
import { drawInLevelStress } from "./drawInLevelStress.ts";
import { drawInLevelStressTable } from "./drawInLevelStressTable.ts";
import { drawInLossUniform } from "./drawInLossUniform.ts";
import { drawInResult, uniformResult } from "./results.ts";

/** How far a draw-in reaches, and at which stress it ends. */
export const drawIn = choosing({
  id: "DRAW_IN",
  family: "drawIn",
  summary: "Length affected by the draw-in of an anchorage (wedge set), or the stress at which it ends",
  notes: [
    "From the path of the tendon. DRAW_IN_STATIONS takes a table of stresses instead, DRAW_IN_UNIFORM a " +
      "fall per metre: functions of their own, since none of the other arguments is asked for then.",
  ],
  by: { result: drawInResult },
  as: { LENGTH: drawInLength, LEVEL_STRESS: drawInLevelStress },
  order: [
    "path",
    "mu",
    "k",
    "wobble",
    "E_p",
    "jacks",
    "sigma0",
    "slip",
    "result",
    "anchorage",
    "sigma_lo",
    "sigma_r",
    "slip_r",
  ],
  result: q.drawInResult,
});

export const drawInStations = choosing({
  id: "DRAW_IN_STATIONS",
  family: "drawIn",
  summary: "Length affected by the draw-in of the anchorage, or the stress at which it ends, from a table of stresses",
  by: { result: drawInResult },
  as: { LENGTH: drawInLengthTable, LEVEL_STRESS: drawInLevelStressTable },
  order: ["stations", "E_p", "slip", "result"],
  result: q.drawInResult,
});

export const drawInUniform = choosing({
  id: "DRAW_IN_UNIFORM",
  family: "drawIn",
  summary: "Length affected by the draw-in, or loss at the anchorage, where friction takes a uniform stress per metre",
  by: { result: uniformResult },
  as: { LENGTH: drawInLengthUniform, LOSS: drawInLossUniform },
  order: ["L", "E_p", "p", "slip", "result"],
  joint: { p: q.stressGradient },
  result: q.drawInResult,
});
