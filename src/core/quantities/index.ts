import { tendon } from "./tendon.ts";

/** Every quantity once, by meaning. */
export const q = { ...tendon };
