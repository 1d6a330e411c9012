import { stepwise } from "../../formula.ts";
import { q } from "../../quantities/index.ts";
import { mechanics } from "../mechanics.ts";
import { areaNotes, areaRuleOneJack } from "./areaRule.ts";
import { drawIn, levelError } from "./search.ts";
import { apart, stations, throughStations } from "./stations.ts";

export const drawInLevelStressTable = stepwise({
  id: "DRAW_IN_STATIONS",
  family: "drawIn",
  summary: "Stress at which the draw-in of the anchorage ends, from a table of the stress after friction",
  notes: [...areaNotes, "Between stations the stress is taken as linear.", apart],
  source: mechanics,
  params: { stations, E_p: q.tendonModulus, slip: q.drawIn },
  result: { ...q.tendonStress, symbol: "σ_a", text: "stress at which the draw-in ends" },
  steps: { level: { symbol: "σ_a", unit: "MPa", governing: areaRuleOneJack } },
  compute: (v) => ({ level: drawIn(throughStations(v.stations), v.slip, v.E_p).level }),
  proof: (v, { level }) => levelError(throughStations(v.stations), level, v.slip, v.E_p),
});
