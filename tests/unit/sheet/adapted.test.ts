import { describe, expect, it } from "vitest";
import { adapted, type AdaptedFile } from "../../../src/templates/adapted.ts";
import { small } from "./small.ts";

/** Asks for nothing. */
const nothing: AdaptedFile = {
  base: small.id,
  id: "adapted",
  version: "1.0.0",
  title: "adapted",
  line: "invented",
  standard: "invented",
  conventions: {},
  notes: {},
  messages: {},
  replace: {},
  patch: {},
  front: [],
  after: {},
  dimensions: {},
  relations: [],
  example: { name: "invented", note: "", drop: [], inputs: {} },
};

describe("a template in the form of another", () => {
  const block = small.blocks[0]!.id;
  it("names everything that its base does not have", () => {
    expect(adapted(small, nothing, {}).id).toBe("adapted");
    expect(() => adapted(small, { ...nothing, patch: { nowhere: {} } }, {})).toThrow(
      "adapted: the base has no patch: nowhere",
    );
  });

  it("also where something else of that name is there", () => {
    expect(adapted(small, { ...nothing, after: { [block]: [] } }, {}).id).toBe("adapted");
    expect(() => adapted(small, { ...nothing, after: { [block]: [] }, patch: { [block]: {} } }, {})).toThrow(
      `adapted: the base has no patch: ${block}`,
    );
    expect(() => adapted(small, { ...nothing, replace: { L: [] }, patch: { L: {} } }, {})).toThrow("patch: L");
  });
});
