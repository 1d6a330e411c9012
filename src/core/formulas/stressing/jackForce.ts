import { cautions } from "../../cautions.ts";
import { formula } from "../../formula.ts";
import { q } from "../../quantities/index.ts";
import { mechanics } from "../mechanics.ts";
import { jack, jackNotes, nonePublished } from "./jack.ts";

export const jackForce = formula({
  id: "JACK_FORCE",
  family: "stressing",
  summary: "Force in the tendon behind the anchorage, from the pressure on the gauge",
  notes: [...jackNotes, cautions.stressing],
  source: mechanics,
  params: { ...jack, p: q.gaugePressure },
  result: q.prestressForce,
  equation: "p * A_ram * (1 - eta_j) * (1 - eta_a)",
  compute: ({ p, A_ram, eta_j, eta_a }) => p * A_ram * (1 - eta_j) * (1 - eta_a),
  unpublished: nonePublished,
});
