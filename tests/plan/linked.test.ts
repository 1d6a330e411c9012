/** Linked sheets: what a template may take, and what it shows. The rules are the project's own; no source outside it. */
import { describe, expect, test } from "vitest";
import { assumedWord, columns, expand, lint, withEntered, type Template } from "../../src/sheet/index.ts";
import { linkedTemplates } from "../../src/templates/index.ts";
import { builtSheet, exampleOf, planned, sourceName, valuesOf } from "./builtSheet.ts";

const ids = linkedTemplates.map(({ id }) => id);
const templateOf = (id: string): Template => linkedTemplates.find((one) => one.id === id)!;
const crossCheck = templateOf("cross-check-post-tensioned-en1992-2004");

/** The template with a row or column that takes something else. */
function changed(id: string, taken: string): Template {
  const { source, ...own } = crossCheck;
  const copy = { ...structuredClone(own), ...(source && { source }) };
  for (const item of copy.blocks.flatMap(({ items }) => items))
    for (const one of "table" in item ? item.columns : [item])
      if ("id" in one && one.id === id) Object.assign(one, { taken });
  return copy;
}

describe.each(ids)("%s", (id) => {
  test("shows the source's values, cell by cell, and the example is OK without an error", () => {
    const { plan, values, source } = planned(templateOf(id), exampleOf(templateOf(id)));
    const links = plan.cells.filter(({ link }) => link);
    // A stressing record takes a few values of each tendon, the other sheets values of each station.
    expect(links.length).toBeGreaterThan(id.startsWith("stressing-record") ? 30 : 60);
    for (const { row, column, link } of links) {
      const of = source!.plan.names.find(({ name }) => name === link!.name)!;
      const there = source!.sheet.cells[of.row + link!.index]![of.column]!;
      expect(values[row]![column]!.value, link!.name).toEqual(there.value ?? "");
    }
    const built = builtSheet(id);
    expect(built.errors()).toEqual([]);
    expect(built.verdicts().overall).toBe("OK");
  });

  test("says of every linked row which one it is there", () => {
    const { plan, source } = planned(templateOf(id), exampleOf(templateOf(id)));
    const span = plan.meanings.find((one) => one.id === "slip" || one.id === "h")!;
    const there = source!.plan.meanings.find((one) => one.id === span.id)!;
    const words = plan.cells.find((cell) => cell.row === span.at.row && cell.role === "equation")!.value;
    expect(words).toBe(`stress check, row ${there.item}`);
  });
});

test("the hash is the template's, whatever the source is called and wherever its cells stand", () => {
  const { plan, source } = planned(crossCheck, exampleOf(crossCheck));
  const names = source!.plan.names.map((name) => ({ ...name, row: name.row + 3 }));
  const other = expand(crossCheck, plan.inputs, { sheet: "B1, rev A", names });
  expect(other.hash).toBe(plan.hash);
  const linked = other.cells.filter(({ link }) => link).map(({ formula }) => formula);
  for (const formula of linked) expect(formula).toContain("'B1, rev A'!");
  expect(plan.cells.find(({ link }) => link)!.formula).toContain(`'${sourceName}'!`);
});

test("a source without a name, or with another number of rows under it, is refused", () => {
  const { plan, source } = planned(crossCheck, exampleOf(crossCheck));
  const { names } = source!.plan;
  const without = names.filter(({ name }) => name !== "kb_Ep");
  expect(() => expand(crossCheck, plan.inputs, { sheet: "B1", names: without })).toThrow("has no kb_Ep");
  const shorter = names.map((name) => (name.name === "kb_dcsr" ? { ...name, rows: name.rows - 1 } : name));
  expect(() => expand(crossCheck, plan.inputs, { sheet: "B1", names: shorter })).toThrow("has no kb_dcsr with 19 rows");
});

describe("lint", () => {
  test.each([
    ["Ep", "Eq", "takes Eq, which post-tensioned-en1992-2004 does not have"],
    ["Ep", "Ecm", "takes Ecm, which is concreteModulus"],
    ["h", "L", "takes L, which is in m there, in mm"],
    ["Ep", "sp0", "takes sp0, which is a column there; a table is needed"],
    ["sp0", "Ep", "which is a single value there, not a column"],
    ["sp0", "vmax", "takes vmax, which runs over other dimensions there"],
  ] as const)("%s", { timeout: 60_000 }, (id, taken, message) => {
    expect(lint(changed(id, taken)).join("\n")).toContain(message);
  });
});

test("the source's verdict is coloured on the first page, as the sheet's own is", () => {
  const { plan } = planned(crossCheck, exampleOf(crossCheck));
  const its = plan.cells.find(({ link }) => link?.name === "kb_overall")!;
  const colours = plan.highlights.filter(
    ({ row, column, rows }) => row === its.row && column === its.column && rows === 1,
  );
  expect(colours).toContainEqual(expect.objectContaining({ text: "FAIL", tone: "bad" }));
});

describe.each(ids)("%s", (id) => {
  const template = templateOf(id);
  const restsOn = ({ plan, values }: ReturnType<typeof planned>): unknown => {
    const { row, column } = plan.cells.find(({ link }) => link?.name === "kb_openPoints")!;
    const verdict = plan.cells.find(({ link }) => link?.name === "kb_overall")!;
    expect(row).toBe(verdict.row + 1);
    return values[row]![column]!.value;
  };
  test("says on its first page what its source leaves unchecked, and nothing where it leaves none", () => {
    const example = exampleOf(template);
    const rests = restsOn(planned(template, { ...example, detailing: "YES", web: "YES" }));
    expect(rests).toBe("no open assumption");
    const off = restsOn(planned(template, { ...example, detailing: "NO", web: "NO" }));
    expect(off).toBe("no open assumption; detailing NOT CHECKED; web NOT CHECKED");
  });
});

test("the source counts the same assumptions as its band tells, wherever they stand", () => {
  const source = crossCheck.source!.template;
  const plan = expand(source, source.example.inputs);
  const inputs = plan.meanings.filter(({ id }) => ["fck", "L", "RH", "fpkIn"].includes(id));
  expect(inputs).toHaveLength(4);
  const marked = inputs.map(({ at }) => ({ row: at.row, column: columns.mark, value: assumedWord }));
  const say = (entered: typeof marked): readonly string[] => {
    const all = withEntered(plan, entered);
    const values = valuesOf(all);
    const { at } = plan.meanings.find(({ id }) => id === "openPoints")!;
    return [String(values[at.row]![at.column]!.value), String(values[1]![3]!.value)];
  };
  const [four, band] = say(marked);
  expect(four).toContain("4 assumptions not confirmed");
  expect(band).toContain("Assumptions not confirmed: 4.");
  const [one] = say(marked.slice(0, 1));
  expect(one).toContain("1 assumption not confirmed");
});

test("the check of losses by time steps shows the excess and the excess allowed, both with their sign", () => {
  const { plan, values } = planned(crossCheck, exampleOf(crossCheck));
  const cellOf = (id: string) => {
    const { row, column } = plan.meanings.find((one) => one.id === id)!.at;
    return values[row]![column]!.value;
  };
  const [row] = [...plan.cells]
    .filter(({ value }) => value === "loss by time steps − by standard")
    .map((cell) => cell.row);
  const shown = values[row!]!.map(({ value }) => value);
  expect(cellOf("soTol")).toBeGreaterThan(0);
  expect(shown).toContain(cellOf("soTol"));
  expect(shown).toContain(cellOf("soMax"));
});
