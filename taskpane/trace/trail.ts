import { useState } from "preact/hooks";
import type { Place } from "../../src/hosts/index.ts";

/** Places one came from and went back from. */
export interface Trail {
  readonly past: readonly Place[];
  readonly ahead: readonly Place[];
}

const start: Trail = { past: [], ahead: [] };
/** Older ones are forgotten. */
const longest = 50;

export function left(trail: Trail, from: Place): Trail {
  return { past: [...trail.past, from].slice(-longest), ahead: [] };
}

export function wentBack(trail: Trail, from: Place): Trail {
  return { past: trail.past.slice(0, -1), ahead: [from, ...trail.ahead] };
}

export function wentForward(trail: Trail, from: Place): Trail {
  return { past: [...trail.past, from], ahead: trail.ahead.slice(1) };
}

/** The trail of the links that were followed. */
export function useTrail(): readonly [Trail, (change: (trail: Trail) => Trail) => void] {
  return useState<Trail>(start);
}
