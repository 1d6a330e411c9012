import type { Source } from "../sources.ts";

/** Statics and geometry: derived in the declaration, owned by no standard. */
export const mechanics: Source = { key: "mechanics", basis: "derived" };
