import { as } from "../../parameters.ts";
import { q } from "../../quantities/index.ts";

/** A straight tendon without friction: a bar with its nut, strands on a bed. */
export const straightTendon = {
  L: as(q.tendonLength, { text: "free length between the anchorages", typical: [1, 200] }),
  E_p: q.tendonModulus,
};
export const takeUp = as(q.drawIn, {
  text: "draw-in at lock-off: take-up of the nut of a bar; on a bed both anchorages together",
});

export const lockOffNotes = [
  "A straight tendon without friction, as a bar or strands on a bed: the loss is the same over the " +
    "whole length. The shorter the tendon, the more a given take-up costs.",
];
export const nonePublished =
  "Hooke's law; the published slip without friction stands at DRAW_IN_UNIFORM, with which tests compare it.";
