/** The sheet for choosing and sizing against tests/independent, and what it says where something is missing or too much. */
import { describe, expect, it } from "vitest";
import type { Inputs } from "../../src/sheet/index.ts";
import { choosingTemplates } from "../../src/templates/index.ts";
import { choice } from "../independent/choosing.ts";
import { choiceIs1343 } from "../independent/choosingIs1343.ts";
import { builtSheet, exampleOf } from "./builtSheet.ts";

const en = "choosing-en1992-2004";
const is = "choosing-is1343-1980";
const exampleFor = (id: string) => exampleOf(choosingTemplates.find((one) => one.id === id)!);
const checks = (id: string, inputs: Inputs) => builtSheet(id, { ...exampleFor(id), ...inputs }).verdicts();
const verdictOf = (id: string, inputs: Inputs, text: RegExp): unknown =>
  checks(id, inputs).checks.find(({ description }) => text.test(description))!.verdict;

describe("both methods of the invented example", () => {
  const sheet = builtSheet(en);
  const { pre, post } = choice;
  const both = (of: (one: typeof pre) => number): readonly number[] => [of(pre), of(post)];

  it("without an error, as computed apart from the core", () => {
    expect(sheet.errors()).toEqual([]);
    sheet.agree(
      "PM",
      both(({ P }) => P / 1000),
    );
    sheet.agree(
      "eM",
      both(({ e }) => e),
    );
    sheet.agree(
      "nM",
      both(({ n }) => n),
    );
    sheet.agree(
      "nT",
      both(({ tendons }) => tendons),
    );
    sheet.agree(
      "sigjM",
      both(({ sigj }) => sigj),
    );
    sheet.agree(
      "lFr",
      both(({ first }) => first),
    );
    sheet.agree(
      "lEl",
      both(({ elastic }) => elastic),
    );
    sheet.agree(
      "s0E",
      both(({ after }) => after),
    );
    sheet.agree(
      "lRe",
      both(({ relaxation }) => relaxation),
    );
    sheet.agree(
      "lAll",
      both(({ all }) => all),
    );
    sheet.agree(
      "pAll",
      both(({ part }) => part),
    );
    sheet.agree(
      "unMass",
      both(({ mass }) => mass),
    );
  });

  it("with quantities from areas and lengths", () => {
    sheet.agree(
      "qtC",
      both(({ mass }) => mass / 2500),
    );
    sheet.agree(
      "qtS",
      both(({ Ap }) => Ap * 15_000 * 7850e-9),
    );
    sheet.agree("qtD", [0, post.tendons * 15]);
    sheet.agree("qtG", [0, 1.5 * post.Ap * 15_000 * 1e-9]);
    expect(sheet.column("unBed")).toEqual([5, "–"]);
    expect(sheet.column("unCasts")).toEqual([3, 12]);
  });
});

it("both methods to the Indian standard, as computed apart from the core", () => {
  const sheet = builtSheet(is);
  const { h, pre, post } = choiceIs1343;
  const agree = (row: string, of: (one: typeof pre) => number): void => sheet.agree(row, [of(pre), of(post)]);
  expect(sheet.errors()).toEqual([]);
  sheet.agree("h", [h]);
  sheet.agree("fcL", [...pre.limits, ...post.limits]);
  agree("PM", ({ P }) => P / 1000);
  agree("eM", ({ e }) => e);
  agree("sigjM", ({ sigj }) => sigj);
  agree("nM", ({ n }) => n);
  agree("nT", ({ tendons }) => tendons);
  agree("ApM", ({ Ap }) => Ap);
  agree("lFr", ({ first }) => first);
  agree("lEl", ({ elastic }) => elastic);
  agree("s0E", ({ after }) => after);
  agree("lRe", ({ relaxation }) => relaxation);
  agree("lSh", ({ shrinkage }) => shrinkage);
  agree("lCr", ({ creeping }) => creeping);
  agree("lAll", ({ all }) => all);
  agree("pAll", ({ part }) => part);
  agree("pU", ({ part, assumed }) => part / assumed);
  agree("unMass", ({ mass }) => mass);
  agree("qtS", ({ Ap }) => Ap * 15_000 * 7850e-9);

  const { postOfFour } = choiceIs1343;
  const ofFour = builtSheet(is, { ...exampleFor(is), perTendon: 4 });
  expect(postOfFour.tendons).toBe(2);
  ofFour.agree("nT", [pre.n, postOfFour.tendons]);
  ofFour.agree("lEl", [pre.elastic, postOfFour.elastic]);
  ofFour.agree("lAll", [pre.all, postOfFour.all]);
});

describe("what is missing is no OK", () => {
  it.each([en, is])("%s: no method chosen", (id) => {
    expect(checks(id, { method: null }).overall).toBe("INCOMPLETE");
    expect(verdictOf(id, { method: null }, /losses estimated/)).toBe("LIMIT MISSING");
  });
  it.each([en, is])("%s: a unit that is moved needs limits of transport, one cast in place does not", (id) => {
    expect(verdictOf(id, { maxMass: null }, /mass of a piece/)).toBe("LIMIT MISSING");
    expect(verdictOf(id, { maxLength: null }, /length of a piece/)).toBe("LIMIT MISSING");
    const inPlace = { method: "POST", cast: "SITE", maxMass: null, maxLength: null };
    expect(verdictOf(id, inPlace, /mass of a piece/)).toBe("OK");
  });
});

describe("what is too much fails", () => {
  it.each([
    ["loads no force bears", { gs: 100, ql: 100 }, /force keeps the limits/],
    ["too heavy", { maxMass: 5000 }, /mass of a piece/],
    ["too long", { maxLength: 12 }, /length of a piece/],
    ["a bed too short", { bedLength: 16 }, /fits on the bed/],
    ["losses assumed too low", { immIn: [0.02, 0.02], lateIn: [0.05, 0.05] }, /losses estimated/],
  ] as const)("%s", (_, inputs, text) => {
    expect(verdictOf(en, inputs as Inputs, text)).toBe("FAIL");
    expect(builtSheet(en, { ...exampleFor(en), ...(inputs as Inputs) }).errors()).toEqual([]);
  });
  it("a grade below M40 for pre-tensioning, M30 for post-tensioning, to the Indian standard alone", () => {
    const low = { fckM: [35, 35], shareM: [1, 1] };
    expect(verdictOf(is, low, /min. grade/)).toBe("FAIL");
    expect(verdictOf(is, { ...low, method: "POST" }, /min. grade/)).toBe("OK");
    expect(checks(en, {}).checks.some(({ description }) => /grade/.test(description))).toBe(false);
  });
});

it("segments are as many as mass and length ask, two at least", () => {
  const pieces = (inputs: Inputs): unknown =>
    builtSheet(en, { ...exampleFor(en), cast: "SEGMENTS", ...inputs }).column("unPieces")[1];
  expect(pieces({})).toBe(2);
  expect(pieces({ maxMass: 2000 })).toBe(4);
  expect(pieces({ maxLength: 3 })).toBe(5);
});
