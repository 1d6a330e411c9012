/** A list that does not fit its places is refused on every way in; nothing that is given is left out in silence. */
import { describe, expect, it } from "vitest";
import {
  builtMember,
  linkedPlanFor,
  membersOf,
  plannedMember,
  planFor,
  readCsv,
  settingsOf,
  type Run,
} from "../../../src/office/index.ts";
import type { InputValue, Template } from "../../../src/sheet/index.ts";
import { linkedTemplates, templates } from "../../../src/templates/index.ts";

const usual = templates.find(({ id }) => id === "post-tensioned-en1992-2004")!;
const ends = linkedTemplates.find(({ id }) => id === `end-zones-${usual.id}`)!;
const linked = (): readonly Template[] => [ends];
const none = new Map();
const run: Run = { base: () => ({}), common: () => none, linked: () => [] };

function memberOf(text: string) {
  const { separator, records } = readCsv(text);
  const { members, bad } = membersOf(records, separator, { all: templates, usual, linked });
  expect(bad).toEqual([]);
  return members[0]!;
}

describe("a list of a table of members", () => {
  it.each([
    ["too long in one field", 'member,sigj\nA,"1400,1395,1390,1385"', /sigj lists 4 values; 3 are needed/],
    [
      "a place that is not there",
      "member,sigj[1],sigj[2],sigj[3],sigj[4]\nA,1400,1395,1390,1385",
      /sigj lists 4 values/,
    ],
    [
      "two parts given flat",
      'member,cpL\nA,"0,0.5,1,0,0.5,1,0,0.5,1"',
      /cpL lists 9 values in 1 part; 9 are .*“;” between/,
    ],
  ])("%s", (_, text, message) => {
    expect(() => plannedMember(memberOf(text), run)).toThrow(message);
  });

  it("is held to the same where it is given for all members, and where its own row does not go before it", () => {
    const common = new Map([["sigj", [1400, 1395, 1390, 1385]]]);
    const ofAll: Run = { ...run, common: () => common };
    expect(() => plannedMember(memberOf("member\nA"), ofAll)).toThrow(/sigj lists 4 values; 3 are needed/);
    expect(plannedMember(memberOf('member,sigj\nA,"1400,1395,1390"'), ofAll).plan.inputs.sigj).toEqual([
      1400, 1395, 1390,
    ]);
    expect(plannedMember(memberOf("member,tendons\nA,4"), ofAll).plan.inputs.sigj).toEqual([1400, 1395, 1390, 1385]);
  });
});

describe("a list as text", () => {
  const record = linkedTemplates.find(({ id }) => id === `stressing-record-${usual.id}`)!;
  const read = (text: string): InputValue | undefined => settingsOf(record, [`rdBar=${text}`]).get("rdBar");

  it("over three dimensions has parts of parts", () => {
    expect(read("86,172;90,180|86,171;91,|")).toEqual([
      [
        [86, 172],
        [90, 180],
      ],
      [
        [86, 171],
        [91, null],
      ],
      null,
    ]);
    expect(read("86,429")).toEqual([[[86, 429]]]);
    expect(read("")).toBeNull();
  });

  it("has parts of no dimension that is not there", () => {
    expect(() => settingsOf(usual, ["cpL=0,1|0,1"])).toThrow(
      "the values run over tendon and point; separate them by “,” for each point, by “;” for each tendon",
    );
  });
});

describe("a list of a linked sheet", () => {
  const plan = planFor(usual, none, usual.example.inputs);
  const source = { plan, sheetName: "Beam" };
  it.each<readonly [string, InputValue, RegExp]>([
    [
      "flat, as long as both parts",
      [[230, 230, 220, 230, 230, 220]],
      /aiV lists 6 values in 1 part; 6 are needed, in 2 parts/,
    ],
    [
      "a part too many",
      [
        [1, 2, 3],
        [1, 2, 3],
        [1, 2, 3],
      ],
      /aiV lists 9 values in 3 parts; 6 are needed/,
    ],
    [
      "a part too long",
      [
        [100, 100, 100],
        [100, 100, 100, 100],
      ],
      /aiV, end 2 lists 4 values; 3 are needed, one for each tendon/,
    ],
  ])("%s", (_, value, message) => {
    expect(() => linkedPlanFor(ends, source, ends.example.inputs, new Map([["aiV", value]]))).toThrow(message);
  });

  it("may leave a part empty", () => {
    const own = linkedPlanFor(ends, source, ends.example.inputs, new Map([["aiV", [[230, 230, 220], null]]]));
    expect(own.inputs.aiV).toEqual([
      [230, 230, 220],
      [null, null, null],
    ]);
  });
});

describe("a setting of a linked sheet", () => {
  const strength = linkedTemplates.find(({ id }) => id === `strength-${usual.id}`)!;
  const source = { plan: planFor(usual, new Map([["web", "NO"]]), usual.example.inputs), sheetName: "Beam" };
  const links = new Map([["inAsw", 2]]);

  it("is refused where the sheet of this shape does not ask for it, in a table of members too", () => {
    const refused = /input inAsw has no place on the linked sheet “Strength.*web = NO/;
    expect(() => linkedPlanFor(strength, source, {}, links)).toThrow(refused);
    expect(() => linkedPlanFor(strength, source, {}, new Map([["inAsw", null]]))).not.toThrow();
    const { records, separator } = readCsv("member,web,inAsw\nA,NO,2");
    const { members } = membersOf(records, separator, { all: templates, usual, linked: () => [strength] });
    const beside: Run = { ...run, base: ({ example }) => example.inputs, linked: () => [strength] };
    expect(() => builtMember(plannedMember(members[0]!, beside), beside, "A.xlsx")).toThrow(refused);
  });

  it("is left out where it is common to several sheets, or another sheet of the call takes it", () => {
    expect(linkedPlanFor(strength, source, {}, new Map(), links).inputs).not.toHaveProperty("inAsw");
    const [first, ...more] = ends.blocks;
    const row = { id: "inAsw", text: "links", symbol: "–", unit: "–", input: { min: 0, max: 9 } };
    const taking: Template = { ...ends, blocks: [{ ...first!, items: [...first!.items, row] }, ...more] };
    const both = [strength, taking];
    expect(linkedPlanFor(strength, source, {}, links, new Map(), both).inputs).not.toHaveProperty("inAsw");
    expect(linkedPlanFor(taking, source, {}, links, new Map(), both).inputs).toMatchObject({ inAsw: 2 });
  });
});
