import { stepwise } from "../../formula.ts";
import { q } from "../../quantities/index.ts";
import { mechanics } from "../mechanics.ts";
import { areaNotes, areaRuleOneJack } from "./areaRule.ts";
import { drawIn, lengthError } from "./search.ts";
import { apart, stations, throughStations } from "./stations.ts";

export const drawInLengthTable = stepwise({
  id: "DRAW_IN_STATIONS",
  family: "drawIn",
  summary: "Length of tendon affected by the draw-in of the anchorage, from a table of the stress after friction",
  notes: [...areaNotes, "Between stations the stress is taken as linear.", apart],
  source: mechanics,
  params: { stations, E_p: q.tendonModulus, slip: q.drawIn },
  result: { ...q.controlX, symbol: "l_a", text: "length affected by the draw-in" },
  steps: { length: { symbol: "l_a", unit: "m", governing: areaRuleOneJack } },
  compute: (v) => ({ length: drawIn(throughStations(v.stations), v.slip, v.E_p).length }),
  proof: (v, { length }) => lengthError(throughStations(v.stations), length, v.slip, v.E_p),
});
