import type { Address } from "../../src/cells/index.ts";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import {
  effectOn,
  NotAllowed,
  questioned,
  sensitivities,
  whatIf,
  type Amount,
  type InputChange,
  type Questioned,
  type Sensitivity,
} from "../../src/checker/index.ts";
import { questionedOf } from "../../src/checker/whatIf/state.ts";
import type { CellContent } from "../../src/hosts/index.ts";
import type { Plan } from "../../src/sheet/index.ts";
import { templates } from "../../src/templates/index.ts";
import { builtBook, gridBook } from "./books.ts";
import type { TestHost } from "./faults.ts";

interface Case {
  readonly name: string;
  readonly changes: readonly { readonly id: string; readonly cell?: number; readonly amount: Amount }[];
}

/** Changes of every kind: by per cent, by an amount, to a value, a choice, one cell of a table, several inputs at once. */
const cases: Readonly<Record<string, readonly Case[]>> = {
  "post-tensioned-en1992-2004": [
    { name: "less strength", changes: [{ id: "fck", amount: { kind: "percent", value: -10 } }] },
    { name: "more jacking stress in all tendons", changes: [{ id: "sigj", amount: { kind: "to", value: 1450 } }] },
    {
      name: "another exposure class and more load",
      changes: [
        { id: "exposure", amount: { kind: "to", value: "XC1" } },
        { id: "ql", amount: { kind: "by", value: 5 } },
      ],
    },
    {
      name: "a strand less in the third tendon",
      changes: [{ id: "strands", cell: 2, amount: { kind: "by", value: -1 } }],
    },
    { name: "an input left empty", changes: [{ id: "RH", amount: { kind: "to", value: null } }] },
  ],
  "pre-tensioned-en1992-2004": [
    { name: "less strength at release", changes: [{ id: "fckt", amount: { kind: "percent", value: -8 } }] },
    { name: "less height", changes: [{ id: "h", amount: { kind: "by", value: -50 } }] },
    {
      name: "longer debonding in the second row",
      changes: [{ id: "debond", cell: 1, amount: { kind: "by", value: 0.5 } }],
    },
  ],
  "post-tensioned-is1343-1980": [
    { name: "a member without tension", changes: [{ id: "memberType", amount: { kind: "to", value: 1 } }] },
    { name: "more draw-in", changes: [{ id: "slip", amount: { kind: "by", value: 4 } }] },
  ],
  "pre-tensioned-is1343-1980": [
    { name: "less strength", changes: [{ id: "fck", amount: { kind: "percent", value: -10 } }] },
    {
      name: "more load on a longer span",
      changes: [
        { id: "ql", amount: { kind: "percent", value: 20 } },
        { id: "L", amount: { kind: "by", value: 0.5 } },
      ],
    },
  ],
  "post-tensioned-is1343-2012": [
    { name: "more creep by the copy", changes: [{ id: "creep2", amount: { kind: "percent", value: 20 } }] },
  ],
  "pre-tensioned-is1343-2012": [
    { name: "longer transmission by the copy", changes: [{ id: "transStrand", amount: { kind: "by", value: 20 } }] },
  ],
};
/** Inputs whose sensitivity is held against the sheet's own central difference. */
const measured: Readonly<Record<string, readonly string[]>> = {
  "post-tensioned-en1992-2004": ["fp01kIn", "mu"],
  "pre-tensioned-en1992-2004": ["h"],
  "post-tensioned-is1343-1980": ["slip"],
  "pre-tensioned-is1343-1980": ["L"],
  "post-tensioned-is1343-2012": ["modulusC"],
  "pre-tensioned-is1343-2012": ["shrinkPre"],
};

const asked = (of: Questioned, changes: Case["changes"]): readonly InputChange[] =>
  changes.map(({ id, ...rest }) => {
    const input = of.inputs.find((i) => i.id === id);
    if (!input) throw new Error(`the sheet has no input ${id}`);
    return { input, ...rest };
  });

/** In memory all of it; on the grid, where an edit takes seconds, a change of a post-tensioned beam and one of a pre-tensioned one. */
const suites = [
  ...templates.map(({ id }) => ({ id, where: "in memory", built: builtBook, changes: cases[id]! })),
  ...[templates[0]!, templates.at(-1)!].map(({ id }) => ({
    id,
    where: "on the grid",
    built: gridBook,
    changes: cases[id]!.slice(0, 1),
  })),
];

describe.each(suites)("$id $where", ({ id, where, built, changes: ofSuite }) => {
  let host: TestHost;
  let plan: Plan;
  let of: Questioned;
  let standing: readonly (readonly CellContent[])[];
  const all = () => host.read("Beam", { row: 0, column: 0, rows: plan.rows, columns: plan.columns });
  const one = async (at: Address): Promise<CellContent> =>
    (await host.read("Beam", { ...at, rows: 1, columns: 1 }))[0]![0]!;
  const enter = async (cells: readonly (Address & { readonly value: CellContent["value"] })[]): Promise<void> => {
    for (const { row, column, value } of cells) await host.enter({ sheet: "Beam", row, column }, value);
  };
  const ofSheet = async () =>
    Promise.all(
      plan.summary.checks.map(async (check) => {
        const [utilisation, verdict, where] = [
          await one(check.utilisation),
          await one(check.verdict),
          await one(check.where),
        ];
        return {
          id: check.id,
          utilisation: utilisation.value,
          verdict: verdict.error?.code ?? verdict.value,
          where: where.error?.code ?? where.value,
        };
      }),
    );
  const near = (value: unknown): unknown => (typeof value === "number" ? expect.closeTo(value, 9) : value);
  const shown = (c: ReturnType<typeof whatIf>["checks"][number], when: "before" | "after") => ({
    id: c.id,
    utilisation: c[when].utilisation ?? null,
    verdict: c[when].verdict,
    where: c[when].where,
  });
  const asSheet = (c: Awaited<ReturnType<typeof ofSheet>>[number]) => ({
    ...c,
    utilisation: typeof c.utilisation === "number" ? near(c.utilisation) : null,
  });
  const texts = async (): Promise<readonly string[]> =>
    plan.summary.warnings.rows === 0
      ? []
      : (await host.read("Beam", plan.summary.warnings)).flat().map(({ text }) => text.trim());
  const answered: Sensitivity[] = [];

  beforeAll(async () => {
    ({ host, plan } = await built(id));
    standing = await all();
    of = (await questioned(host, "Beam"))!;
  }, 120_000);
  afterAll(() => host.dispose());

  it("says what the checks are now, and leaves the sheet as it is", async () => {
    const { checks, overall } = whatIf(of, asked(of, ofSuite[0]!.changes));
    expect(checks.map((c) => shown(c, "before"))).toEqual((await ofSheet()).map(asSheet));
    expect(overall.before).toBe((await one(plan.summary.overall)).value);
    for (const { found } of sensitivities(of)) if (found) answered.push(found);
    expect(await all()).toEqual(standing);
  }, 120_000);

  it.each(ofSuite)(
    "$name: the checks are what the sheet then says",
    async ({ changes }) => {
      const outcome = whatIf(of, asked(of, changes));
      expect(outcome.cannot).toEqual([]);
      const before = await texts();
      await enter(outcome.changed.map(({ at, after }) => ({ ...at, value: after })));
      expect(outcome.checks.map((c) => shown(c, "after"))).toEqual((await ofSheet()).map(asSheet));
      expect(outcome.overall.after).toBe((await one(plan.summary.overall)).value);
      for (const { at, after } of outcome.turned)
        expect((await one(at)).value ?? (await one(at)).error!.code).toBe(after);
      const after = await texts();
      expect(outcome.warnings.appeared).toHaveLength(
        after.filter((text, i) => text !== "" && text !== before[i]).length,
      );
      expect(outcome.warnings.gone).toHaveLength(before.filter((text, i) => text !== "" && text !== after[i]).length);
      await enter(outcome.changed.map(({ at, before: value }) => ({ ...at, value })));
      expect((await ofSheet()).map(asSheet)).toEqual(outcome.checks.map((c) => shown(c, "before")));
    },
    120_000,
  );

  it.each(where === "in memory" ? measured[id]! : [])(
    "the sensitivity to %s is the sheet's central difference",
    async (input) => {
      const found = answered.find((s) => s.input.id === input)!;
      const { value, at } = found.input.cells[0]!;
      const governing = async (factor: number): Promise<number> => {
        await enter([{ ...at, value: (value as number) * factor }]);
        return Math.max(
          ...(await ofSheet()).flatMap(({ utilisation }) => (typeof utilisation === "number" ? [utilisation] : [])),
        );
      };
      const now = await governing(1);
      for (const [step, factor] of [
        [found.down, 0.99],
        [found.up, 1.01],
      ] as const) {
        const there = await governing(factor);
        if (!step.ok) {
          // Then a check of the sheet says in words why it has no figure, where it had one before.
          const words = (await ofSheet()).map(({ utilisation }) => utilisation);
          expect(
            words.some((word) => typeof word === "string" && step.why.endsWith(`: ${word}`)),
            step.why,
          ).toBe(true);
          continue;
        }
        expect(step.utilisation).toBeCloseTo(there, 9);
        expect(step.change).toBeCloseTo(there - now, 9);
      }
      await enter([{ ...at, value }]);
    },
    120_000,
  );

  it("finds inputs that matter", () => {
    expect(answered.length).toBeGreaterThan(30);
    expect(answered.filter((s) => (effectOn(s) ?? 0) > 1e-3).length).toBeGreaterThan(2);
  });
});

describe("what is refused or said", () => {
  let host: TestHost;
  let of: Questioned;
  beforeAll(async () => {
    host = (await builtBook("pre-tensioned-is1343-1980")).host;
    of = (await questioned(host, "Beam"))!;
  }, 120_000);
  afterAll(() => host.dispose());
  const refusal = (changes: Case["changes"]): string => {
    try {
      whatIf(of, asked(of, changes));
    } catch (error) {
      if (error instanceof NotAllowed) return error.message;
      throw error;
    }
    return "";
  };

  it.each<[string, Case["changes"], RegExp]>([
    [
      "a value out of range",
      [{ id: "fck", amount: { kind: "to", value: 80 } }],
      /^input fck \(characteristic cube strength at 28 days\) = 80 MPa is above 60; allowed: 30 to 60 MPa$/,
    ],
    [
      "a per cent that leads out of it",
      [{ id: "fck", amount: { kind: "percent", value: 50 } }],
      /= 75 MPa is above 60/,
    ],
    [
      "a part of a strand",
      [{ id: "strands", cell: 0, amount: { kind: "by", value: 0.5 } }],
      /input ns \(number of strands in the row\), row 1 = 8\.5 is not a whole number/,
    ],
    [
      "no choice of its own",
      [{ id: "memberType", amount: { kind: "to", value: 7 } }],
      /is not one of the choices; allowed: 1 \(/,
    ],
    [
      "a choice by per cent",
      [{ id: "memberType", amount: { kind: "percent", value: 10 } }],
      /is a choice; state one of them/,
    ],
    [
      "a text for a number",
      [{ id: "fck", amount: { kind: "to", value: "much" } }],
      /is not a number; a number in MPa is needed/,
    ],
    [
      "a per cent of nothing",
      [{ id: "heatLoss", amount: { kind: "percent", value: 10 } }],
      /is 0, of which a per cent is nothing/,
    ],
    ["an amount for an empty cell", [{ id: "ftType3In", amount: { kind: "by", value: -1 } }], /holds no number/],
    [
      "every fault at once",
      [
        { id: "fck", amount: { kind: "to", value: 80 } },
        { id: "L", amount: { kind: "to", value: -1 } },
      ],
      /fck.*\n.*input L/,
    ],
  ])("%s", (_, changes, message) => expect(refusal(changes)).toMatch(message));

  it(
    "names what it moves: one side where the other is not allowed, an absolute step where the input is " +
      "0, the cells of a table one by one",
    () => {
      const found = [...sensitivities(of, { percent: 1, tables: "cells" })].flatMap(({ found: one }) => one ?? []);
      const ofInput = (id: string) => found.filter((s) => s.input.id === id);
      expect(ofInput("t0")[0]!.down).toMatchObject({
        ok: false,
        why: expect.stringMatching(/6\.93 days is below 7/) as string,
      });
      expect(ofInput("t0")[0]!.up).toMatchObject({ ok: true, amount: "+1 %" });
      expect(ofInput("heatLoss")[0]!.up.amount).toMatch(/^\+1 MPa \(1 % of its everyday range, since it is 0\)$/);
      expect(ofInput("strands").map(({ label, up }) => `${label}: ${up.amount}`)).toEqual(
        [1, 2, 3, 4].map((n) => `ns (number of strands in the row), row ${n}: +1`),
      );
    },
  );

  it("which cells hold values typed over formulas, through which nothing moves", () => {
    expect(of.stuck).toEqual([]);
    const { recognised, book } = of;
    const cells = recognised.snapshot.cells.map((row) => [...row]);
    const over = recognised.plan.cells.find(({ formula, role }) => formula !== undefined && role === "value")!;
    cells[over.row]![over.column] = { value: 1, text: "1" };
    expect(questionedOf({ ...recognised, snapshot: { ...recognised.snapshot, cells } }, book).stuck).toEqual([
      { row: over.row, column: over.column },
    ]);
  });

  it("no sheet of a template's", async () => {
    expect(await questioned(host, "Sheet1")).toBeUndefined();
  });
});
