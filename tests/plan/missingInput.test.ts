/** No verdict says OK while an input is missing. The rule is the project's own; no source outside it. */
import { describe, expect, test } from "vitest";
import { templates } from "../../src/templates/index.ts";
import type { InputValue, Template } from "../../src/sheet/index.ts";
import { builtSheet, exampleOf, planned } from "./builtSheet.ts";
import { allTemplates, linkedTemplates } from "../../src/templates/index.ts";

/** Inputs that plain arithmetic would take as 0, or a function as its default, where they are empty. */
const oneByOne: Readonly<Record<string, readonly string[]>> = {
  "post-tensioned-en1992-2004": ["psi2", "cDev", "k1c"],
  "pre-tensioned-en1992-2004": ["dDec", "aggregate"],
  "post-tensioned-is1343-1980": ["temporary", "kinkLimit"],
  "pre-tensioned-is1343-1980": ["sTb", "surroundings"],
  "post-tensioned-is1343-2012": ["jackShare", "relax1", "lineII2", "creep2"],
  "pre-tensioned-is1343-2012": ["transStrand", "shrinkPre", "gradePre", "ftType2In"],
};

/** The words of all verdicts of a sheet that is built with these inputs. */
function words(id: string, inputs: Readonly<Record<string, InputValue>>): readonly unknown[] {
  const { plan, values } = planned(
    allTemplates.find((one) => one.id === id)!,
    inputs,
  );
  return plan.cells
    .filter(({ role }) => role === "verdict" || role === "overall")
    .map(({ row, column }) => values[row]![column]!.value);
}

describe.each(templates.map(({ id }) => id))("%s", (id) => {
  const example = templates.find((one) => one.id === id)!.example.inputs;
  test.each(oneByOne[id]!)("without %s", (input) => {
    const said = words(id, { ...example, [input]: null });
    expect(said).toContain("MISSING");
    expect(said).toContain("INCOMPLETE");
    expect(said).toContain("INPUT MISSING");
    expect(said).not.toContain("OK");
  });
});

/** What fills the concrete and the steel of a sheet to IS 1343. */
const materials = ["fck", "product", "As1In", "fpkIn", "EpIn", "diameterIn"];

test.each(templates.map(({ id }) => id))(
  "%s without concrete and steel: the first page shows no error and no FAIL",
  (id) => {
    const template = allTemplates.find((one) => one.id === id)!;
    const example = template.example.inputs;
    const without = [...materials, "fp01kIn", "relaxIn"].filter((one) => one in example);
    const inputs = { ...example, ...Object.fromEntries(["fck", ...without].map((one) => [one, null])) };
    const { plan, values } = planned(template, inputs);
    const end = plan.meanings.find((one) => one.id === "fck")!.at.row;
    const front = plan.cells
      .filter(({ row, formula }) => row < end && formula !== undefined)
      .map(({ row, column }) => values[row]![column]!);
    expect(front.filter(({ error }) => error)).toEqual([]);
    const said = front.map(({ value }) => value);
    expect(said).toContain("INPUT MISSING");
    expect(said).not.toContain("FAIL");
    expect(said.join(" ")).not.toMatch(/least grade|minimum grade/);
  },
);

/** Ids of the inputs that a linked sheet asks for itself and that may not stay empty. */
function neededOf({ blocks }: Template): readonly string[] {
  const ids: string[] = [];
  for (const item of blocks.flatMap(({ items }) => items)) {
    const asked = "table" in item ? item.columns : "id" in item ? [item] : [];
    for (const { id, input } of asked)
      if (input && !input.freeText && (!input.mayBeEmpty || input.neededWhere !== undefined)) ids.push(id);
  }
  return ids;
}

/** Those that arithmetic would take as 0, of all that are tried together. */
const alone = ["inTt", "inBi", "inFtT", "inFcT", "inVr", "inGg", "fykE", "aiV", "siDia", "suddenFactor"];

const emptied = (value: InputValue): InputValue =>
  Array.isArray(value) ? (value as readonly InputValue[]).map(emptied) : null;

describe.each(linkedTemplates.filter(({ id }) => /^(composite|end-zones)-/.test(id)).map(({ id }) => id))(
  "%s, its first page while an input is missing: no error, no FAIL, and the word for it",
  (id) => {
    const template = linkedTemplates.find((one) => one.id === id)!;
    const example = exampleOf(template);
    const needed = neededOf(template).filter((one) => example[one] !== undefined);
    const cases: readonly (readonly [string, readonly string[]])[] = [
      ["all of them", needed],
      ...needed.filter((one) => alone.includes(one)).map((one) => [one, [one]] as const),
    ];
    test.each(cases)("%s", (_, without) => {
      const inputs = { ...example, ...Object.fromEntries(without.map((one) => [one, emptied(example[one]!)])) };
      const { plan, values } = planned(template, inputs);
      const end = Math.min(
        ...plan.cells.flatMap(({ row, role }) => (role === "input" || role === "choice" ? [row] : [])),
      );
      const said = plan.cells
        .filter(({ row, formula }) => row < end && formula !== undefined)
        .map(({ row, column }) => values[row]![column]!);
      expect(said.filter(({ error }) => error)).toEqual([]);
      expect(said.map(({ value }) => value)).not.toContain("FAIL");
      expect(said.map(({ value }) => value)).toContain("INCOMPLETE");
      const verdicts = plan.summary.checks.map(({ verdict }) => values[verdict.row]![verdict.column]!.text);
      expect(verdicts.some((word) => /MISSING|OPEN/.test(word))).toBe(true);
    });
  },
);

test("a linked sheet says no OK while its source lacks an input, and names it", () => {
  const id = "feasible-domain-post-tensioned-en1992-2004";
  const template = allTemplates.find((one) => one.id === id)!;
  const inputs = { ...exampleOf(template), psi2: null };
  const said = words(id, inputs);
  expect(said).toContain("INCOMPLETE");
  expect(said).not.toContain("OK");
  const { plan, values } = planned(template, inputs);
  const band = plan.cells.find(({ role }) => role === "bandText")!;
  expect(values[band.row]![band.column]!.value).toContain("Inputs missing on the source sheet: ");
});

describe("the edge distance of the feasible domain", () => {
  const id = "feasible-domain-post-tensioned-en1992-2004";
  const inputs = exampleOf(allTemplates.find((one) => one.id === id)!);
  test("empty: a limit is missing, and no check says OK", () => {
    const { checks, overall } = builtSheet(id, { ...inputs, edge: null }).verdicts();
    expect(overall).toBe("INCOMPLETE");
    expect(checks.slice(0, 3).map(({ verdict }) => verdict)).toEqual(Array(3).fill("LIMIT MISSING"));
  });

  test("a tendon whose centroid is closer to the soffit than that fails, wherever the stresses are", () => {
    // By hand: the heights typed for midspan, weighted by the strands; the forces differ by friction alone.
    const strands = inputs["strands"] as readonly number[];
    const typed = inputs["cpy"] as readonly (readonly (number | null)[])[];
    const heights = [typed[0]![1]!, typed[0]![1]!, typed[2]![1]!];
    const sum = (of: readonly number[]): number => of.reduce((all, one) => all + one, 0);
    const y = sum(strands.map((n, i) => n * heights[i]!)) / sum(strands);
    for (const [edge, verdict] of [
      [Math.floor(y) - 10, "OK"],
      [Math.ceil(y) + 10, "FAIL"],
    ] as const) {
      const { checks } = builtSheet(id, { ...inputs, edge }).verdicts();
      expect(
        checks.slice(0, 3).map((check) => check.verdict),
        `c_e = ${edge} mm, tendon centroid ${y} mm above the soffit`,
      ).toEqual(Array(3).fill(verdict));
    }
  });
});

test("where not all missing inputs have room on the first page it says how many of how many it names", () => {
  const template = templates.find(({ id }) => id === "post-tensioned-en1992-2004")!;
  const { plan, values } = planned(template, {});
  const text = (at: { readonly row: number; readonly column: number }): string =>
    String(values[at.row]![at.column]!.value);
  const all = text(plan.meanings.find(({ id }) => id === "inMissing")!.at);
  const band = text(plan.cells.find(({ role }) => role === "bandText")!);
  const [, named, count, list] = /Inputs missing: (\d+) of (\d+) shown: (.*?) …/.exec(band) ?? [];
  // Each begins with the number of its row.
  const numbers = (of: string): number => of.match(/(^|, )\d+\.\d+ /g)?.length ?? 0;
  expect([Number(named), Number(count)]).toEqual([numbers(list!), numbers(all)]);
  expect(Number(named)).toBeLessThan(Number(count));
});
