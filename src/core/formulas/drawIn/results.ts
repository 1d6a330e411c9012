import { choice } from "../../parameters.ts";

const length = { value: "LENGTH", text: "length affected in m" } as const;

/** What is wanted of a draw-in. */
export const drawInResult = choice({
  key: "drawInResultName",
  symbol: "result",
  text: "what is wanted",
  values: [length, { value: "LEVEL_STRESS", text: "stress at which the draw-in ends, in MPa" }],
});

/** What is wanted where friction takes a uniform stress. */
export const uniformResult = choice({
  key: "uniformDrawInResult",
  symbol: "result",
  text: "what is wanted",
  values: [length, { value: "LOSS", text: "loss at the anchorage in MPa" }],
});
