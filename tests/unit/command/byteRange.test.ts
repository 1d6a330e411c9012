import { describe, expect, it } from "vitest";
import { byteRange } from "../../../src/command/serve/byteRange.ts";

describe("ranges of bytes, as RFC 9110 section 14.1.2 defines them for a file of 10,000 bytes", () => {
  // Examples of that section, for a representation of length 10000.
  it.each([
    ["bytes=0-499", { first: 0, last: 499 }],
    ["bytes=500-999", { first: 500, last: 999 }],
    ["bytes=-500", { first: 9500, last: 9999 }],
    ["bytes=9500-", { first: 9500, last: 9999 }],
    ["bytes=0-20000", { first: 0, last: 9999 }],
    ["bytes=-20000", { first: 0, last: 9999 }],
  ])("%s", (header, range) => expect(byteRange(header, 10_000)).toEqual(range));

  it.each(["bytes=10000-", "bytes=5-4", "bytes=-0", "bytes=a-b", "bytes=", "bytes=-"])("%s is none", (header) =>
    expect(byteRange(header, 10_000)).toBe("NONE"),
  );

  it("takes the unit in capitals", () => expect(byteRange("Bytes=1-2", 5)).toEqual({ first: 1, last: 2 }));

  it("is the whole file without a header, for several ranges and for other units", () => {
    expect(byteRange("lines=0-1", 5)).toBe("ALL");
    expect(byteRange("5", 5)).toBe("ALL");
    expect(byteRange(undefined, 5)).toBe("ALL");
    expect(byteRange("bytes=0-0,-1", 5)).toBe("ALL");
  });
});
