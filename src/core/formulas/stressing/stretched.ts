import type { Pulled } from "../friction/pulled.ts";
import type { integrate } from "../tendon/integrate.ts";

/** ∫ σ dl along the true curve from the jack to a distance; over E_p it is the elongation there. `by`: the way to integrate. */
export function stretched({ stress, stretch, length, breaks }: Pulled, by: typeof integrate, to = length): number {
  return by((s) => stress(s) * stretch(s), 0, to, breaks);
}
