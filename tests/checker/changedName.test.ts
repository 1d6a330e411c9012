/** A sheet made by a change is called after what changed. */
import { describe, expect, it } from "vitest";
import { changedName } from "../../src/checker/rebuild/changedName.ts";
import { expand, faultOfSheetName, freeSheetName, type Inputs } from "../../src/sheet/index.ts";
import { templates } from "../../src/templates/index.ts";

const sheet = (id: string, shape: Inputs = {}) => {
  const template = templates.find((one) => one.id === id)!;
  return { template, inputs: expand(template, { ...template.example.inputs, ...shape }).inputs };
};
const en = sheet("post-tensioned-en1992-2004");
const is = sheet("post-tensioned-is1343-1980");
const four = sheet("post-tensioned-en1992-2004", { tendons: 4 });
const five = sheet("post-tensioned-en1992-2004", { tendons: 5 });

describe("the name of a changed sheet", () => {
  it.each([
    ["another standard", "Beam", en, is, "Beam – IS 1343-1980"],
    ["and back", "Beam – IS 1343-1980", is, en, "Beam – EN 1992-1-1-2004"],
    ["another number of tendons", "Beam", en, four, "Beam – 4 tendons"],
    ["and another", "Beam – 4 tendons", four, five, "Beam – 5 tendons"],
    ["and another of a second of that name", "Beam – 4 tendons 2", four, five, "Beam – 5 tendons"],
    ["what somebody typed stays", "Girder – north", en, four, "Girder – north – 4 tendons"],
    ["what is no longer true stays: somebody typed it", "Beam – 6 tendons", en, four, "Beam – 6 tendons – 4 tendons"],
    ["a choice", "Beam", en, sheet("post-tensioned-en1992-2004", { lifted: "NO" }), "Beam – not lifted"],
  ])("%s", (_, name, from, to, after) => {
    expect(changedName(name, from, to, from.template.version)).toBe(after);
  });

  it("an upgrade is called after the version", () => {
    expect(changedName("Beam", en, en, "1.0.0")).toBe(`Beam – ${en.template.version}`);
    expect(changedName("Beam", en, en, en.template.version)).toBe("Beam");
  });

  it("too many changes have no name of their own", () => {
    const other = sheet("post-tensioned-en1992-2004", { tendons: 4, points: 5, intervals: 6 });
    expect(changedName("Beam", en, other, en.template.version)).toBe("Beam");
  });

  it("is one that programs take, within 31 characters, the long name of a member shortened", () => {
    const name = changedName("Edge girder of the north approach", en, is, en.template.version);
    expect(name).toBe("Edge girder of t – IS 1343-1980");
    expect(name.length).toBe(31);
    expect(faultOfSheetName(name)).toBeUndefined();
    expect(freeSheetName(name, [name])).toMatch(/ 2$/);
    expect(freeSheetName("Beam – 4 tendons", ["Beam – 4 tendons"])).toBe("Beam – 4 tendons 2");
  });
});
