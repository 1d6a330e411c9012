import { choice } from "../../parameters.ts";

/** An end of the tendon, seen from the side on which x grows to the right. */
export type End = "LEFT" | "RIGHT";

const ends = [
  { value: "LEFT", text: "left end" },
  { value: "RIGHT", text: "right end" },
] as const;

/** The end from which a tendon is looked at. */
export const jackingEnd = choice({ key: "jackingEnd", symbol: "jack", text: "jacking end", values: ends });

/** The jacks that pull. */
export const jacks = choice({
  key: "jacks",
  symbol: "jacks",
  text: "where the tendon is jacked",
  values: [...ends, { value: "BOTH", text: "both ends, at once or one fully after the other" }],
});

/** Which of two anchorages a result is of. */
export const anchorage = choice({ key: "anchorageEnd", symbol: "end", text: "end looked at", values: ends });

export const otherEnd = (end: End): End => (end === "LEFT" ? "RIGHT" : "LEFT");

/** A distance counted from the left end, counted from an end; and the other way round. */
export const countedFrom = (length: number, end: End, x: number): number => (end === "LEFT" ? x : length - x);
