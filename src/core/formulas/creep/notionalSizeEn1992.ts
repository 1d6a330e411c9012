import { formula } from "../../formula.ts";
import { as } from "../../parameters.ts";
import { q } from "../../quantities/index.ts";

/** Notional size: twice the area over the drying perimeter. */
export const notionalSizeEn1992 = formula({
  id: "NOTIONAL_SIZE_EN1992_2004",
  family: "creep",
  summary: "Notional size of the section for creep and shrinkage: twice the area over the drying perimeter",
  notes: ["The perimeter of sealed faces does not count; of a box's inside only what can dry."],
  source: { key: "EN1992-1-1:2004", clause: "3.1.4(5), Annex B (B.6)", basis: "seen", readIn: "CE:2021" },
  params: { A_c: as(q.area, { symbol: "A_c", text: "area of the concrete section" }), u: q.perimeter },
  result: q.notionalSize,
  equation: "2 * A_c / u",
  compute: ({ A_c, u }) => (2 * A_c) / u,
});
