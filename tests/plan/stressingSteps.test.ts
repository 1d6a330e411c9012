import { expect, test } from "vitest";
import { alderQuay } from "../independent/alderQuay.ts";
import { beam } from "../independent/postTensionedBeam.ts";
import { templates } from "../../src/templates/index.ts";
import { builtSheet, type BuiltSheet } from "./builtSheet.ts";
import type { Inputs } from "../../src/sheet/index.ts";
import { profile } from "./profile.ts";

const id = "post-tensioned-en1992-2004";
const example = templates.find((t) => t.id === id)!.example.inputs;
let built: BuiltSheet | undefined;
const verdictOf = (description: RegExp): { readonly verdict: unknown; readonly where: string } =>
  built!.verdicts().checks.find((check) => description.test(check.description))!;

/** A first tendon far above the centroid at the ends, below it at midspan. */
const steep = {
  ...example,
  ...profile({
    cpe: [
      [360, 550, 360],
      [20, 550, 20],
      [-490, 450, -490],
    ],
  }),
  order: [2, 3, 1],
  strands: [5, 5, 7],
  duct: [65, 65, 75],
  zt: [0, 0, 0],
  ql: 13,
};

test("the first tendon alone pulls at the bottom of the ends, the second at the top of midspan where no self-weight is sure", () => {
  built = builtSheet(id, steep);
  const places = [
    { strands: 5, duct: 65, order: 2, e0: 360, e1: 550, z: 0 },
    { strands: 5, duct: 65, order: 3, e0: 20, e1: 550, z: 0 },
    { strands: 7, duct: 75, order: 1, e0: -490, e1: 450, z: 0 },
  ];
  const expected = beam({ ...alderQuay, q: 13, tendons: alderQuay.tendons.map((t, i) => ({ ...t, ...places[i]! })) });
  built.agree(
    "lowTop",
    expected.steps.flatMap((s) => s.stresses.map(({ top }) => top)),
  );
  built.agree(
    "lowBottom",
    expected.steps.flatMap((s) => s.stresses.map(({ bottom }) => bottom)),
  );
  const [bottom, top, limits] = [built.column("lowBottom"), built.column("lowTop"), built.column("utFt")];
  const stations = bottom.length / 3;
  // Written out by hand from statics: −2.945 MPa at the far end after tendon 3, −3.266 MPa at midspan after tendon 1;
  // f_ctm(t_0) = 3.070 MPa.
  expect(limits[2]).toBeCloseTo(-3.07, 2);
  expect(Math.min(...(bottom.slice(2 * stations) as number[]))).toBeCloseTo(-2.945, 3);
  expect(Math.min(...(top.slice(0, stations) as number[]))).toBeCloseTo(-3.266, 3);
  expect(verdictOf(/^tension while stressing/)).toMatchObject({
    verdict: "FAIL",
    where: expect.stringMatching(/^after tendon 1, x = 12\.00 m$/) as string,
  });
});

test("tendons off the axis, stressed one by one, bend the member about its weak axis on the way", () => {
  built = builtSheet(id, { ...example, order: [2, 3, 1] });
  const expected = beam({ ...alderQuay, tendons: alderQuay.tendons.map((t, i) => ({ ...t, order: [2, 3, 1][i]! })) });
  built.agree(
    "lowTop",
    expected.steps.flatMap((s) => s.stresses.map(({ top }) => top)),
  );
  expect(verdictOf(/^tension while stressing/).verdict).toBe("FAIL");
});

test("self-weight that is sure to act in part holds the top", () => {
  built = builtSheet(id, { ...steep, selfSure: 0.5 });
  expect(verdictOf(/^tension while stressing/)).toMatchObject({ verdict: "OK" });
  expect(built.column("utSure")[0]).toBeCloseTo((0.5 * 12) / 17, 9);
});

test("self-weight that acts at most in part pulls less at the bottom, and only where somebody says so", () => {
  const short = { ...example, order: [2, 3, 1], strands: [3, 3, 1], duct: [65, 65, 65], zt: [0, 0, 0], ql: 3 };
  const bottom = (inputs: Inputs): number => {
    built = builtSheet(id, inputs);
    const low = built.column("lowBottom") as number[];
    return Math.min(...low.slice(2 * (low.length / 3)));
  };
  const [whole, part] = [bottom(short), bottom({ ...short, selfMost: [null, null, 0.25] })];
  expect(part).toBeGreaterThan(whole);
  const most = built!.column("bMost") as number[];
  const own = built!.column("Mg") as number[];
  const hog = built!.column("bHog") as number[];
  const stations = own.length;
  // Tendon 3 alone: a quarter of the self-weight, or twice what it lifts with r_sup = 1.1 of bonded tendons, 5.10.9.
  const lifts = 2 * 1.1 * Math.max(...hog.slice(2 * stations), 0);
  own.forEach((M, i) => expect(most[2 * stations + i]).toBeCloseTo(Math.min(0.25 * M, lifts), 9));
  // After the others none is declared, and the last takes it all.
  own.forEach((M, i) => expect(most[stations + i]).toBeCloseTo(M, 9));
});

test("on its end supports the self-weight pulls in full at the bottom from the first tendon on", () => {
  built = builtSheet(id, {
    ...steep,
    ...profile({
      cpe: [
        [360, 550, 360],
        [20, 550, 20],
        [-320, 100, -320],
      ],
    }),
    stressedOn: "ENDS",
  });
  expect(verdictOf(/^tension while stressing/).verdict).toBe("FAIL");
  const whole = built.column("Mg");
  expect(built.column("bMost")).toEqual([...whole, ...whole, ...whole]);
});

test("young concrete has its own limits, and a strength that the approval asks for and is not reached fails", () => {
  built = builtSheet(id, { ...example, fckStep: [null, null, 22] });
  const fc = built.column("utFc") as number[];
  expect(fc[0]).toBeCloseTo(0.6 * 34, 9);
  expect(fc[2]).toBeCloseTo(0.6 * 22, 9);
  // 38 MPa for full stressing; 1400 of 1440 MPa is 0.9722 of the force.
  expect(built.column("utNeed")[2]).toBeCloseTo(38 * (0.5 + (0.5 * (1400 / 1440 - 0.3)) / 0.7), 9);
  expect(verdictOf(/^strength for stressing/).verdict).toBe("FAIL");
});

test("without the strength of the approval the sheet is incomplete", () => {
  built = builtSheet(id, { ...example, fcmFull: null });
  expect(built.verdicts().overall).toBe("INCOMPLETE");
});

test("lifting: the lower factor governs where the upper one passes", () => {
  built = builtSheet(id, {
    ...example,
    ...profile({
      cpe: [
        [360, 550, 360],
        [20, 550, 20],
        [-320, 450, -320],
      ],
    }),
    liftLow: 0.85,
    selfSure: 1,
  });
  const { checks, overall } = built.verdicts();
  expect(overall).toBe("FAIL");
  expect(checks.find(({ description }) => description.startsWith("compression in the concrete, all"))).toMatchObject({
    verdict: "FAIL",
    where: expect.stringMatching(/^Lifting × 0\.85, x = 12\.00 m/) as string,
  });
});
