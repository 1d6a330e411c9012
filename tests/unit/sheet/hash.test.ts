import { expect, test } from "vitest";
import { fnv1a64 } from "../../../src/core/index.ts";

// FNV-1a, 64 bits: test vectors of the algorithm's authors (IETF draft eastlake-fnv), from memory.
test.each([
  ["", "cbf29ce484222325"],
  ["a", "af63dc4c8601ec8c"],
  ["foobar", "85944171f73967e8"],
])("the hash of %j", (text, hash) => {
  expect(fnv1a64(text)).toBe(hash);
});

test("agrees with the definition in whole numbers on text of one to four bytes a character", () => {
  const text = "f_ck ≤ σ·μ² 😀".repeat(50);
  let hash = 0xcbf29ce484222325n;
  for (const byte of new TextEncoder().encode(text))
    hash = ((hash ^ BigInt(byte)) * 0x100000001b3n) & 0xffffffffffffffffn;
  expect(fnv1a64(text)).toBe(hash.toString(16).padStart(16, "0"));
});
