import { choice } from "../../parameters.ts";

/** When tendons are stressed. */
export const tensioning = choice({
  key: "tensioning",
  symbol: "method",
  text: "method of prestressing",
  values: [
    { value: "PRE_TENSIONED", text: "pre-tensioned" },
    { value: "POST_TENSIONED", text: "post-tensioned, in ducts" },
  ],
});

/** Which way a clear spacing runs. */
export const direction = choice({
  key: "spacingDirection",
  symbol: "direction",
  text: "direction of the clear spacing",
  values: [
    { value: "HORIZONTAL", text: "side by side" },
    { value: "VERTICAL", text: "one above the other" },
  ],
});

/** What the cover of EN 1992-1-1:2004 4.4.1.2(3) protects. */
export const embedded = choice({
  key: "embedded",
  symbol: "steel",
  text: "what lies in the concrete",
  values: [
    { value: "DUCT", text: "circular duct of a post-tensioned tendon" },
    { value: "STRAND", text: "pre-tensioned strand or plain wire" },
    { value: "INDENTED_WIRE", text: "pre-tensioned indented wire" },
  ],
});
