import { expect, it } from "vitest";
import { membersOnHost, readDefaults, Refused, type OnHost } from "../../../src/office/index.ts";
import { columns, type Plan } from "../../../src/sheet/index.ts";
import { templates } from "../../../src/templates/index.ts";
import { invented } from "../../hosts/logoPictures.ts";
import { MemoryHost } from "../../hosts/memory/memoryHost.ts";

const template = templates.find(({ id }) => id === "pre-tensioned-is1343-1980")!;

/** A table on Sheet1, from B3. */
async function hostWith(rows: readonly (readonly (string | number)[])[]): Promise<MemoryHost> {
  const host = new MemoryHost();
  await host.insert(
    "Sheet1",
    rows.flatMap((row, r) => row.map((value, c) => ({ row: r + 2, column: c + 1, value }))),
  );
  return host;
}

function build(
  host: MemoryHost,
  rows: number,
  signal = new AbortController().signal,
  seen: string[] = [],
): Promise<OnHost> {
  return membersOnHost(host, {
    templates: { all: templates, usual: template, linked: () => [] },
    run: { base: ({ example }) => example.inputs, common: () => new Map(), linked: () => [] },
    table: { sheet: "Sheet1", area: { row: 2, column: 1, rows, columns: 3 } },
    date: "2026-11-01",
    progress: () => undefined,
    signal,
    built: (_plan, sheet) => seen.push(sheet),
  });
}

it("builds a sheet for each row, a register, and on the next run only what changed; cancelled, it goes on from there", async () => {
  const host = await hostWith([
    ["member", "gs", "ql"],
    ["Alder 1", "", ""],
    ["Alder 2", 90, 3],
    ["Alder 3", "x", ""],
  ]);
  const cancel = new AbortController();
  const stopped = await membersOnHost(host, {
    templates: { all: templates, usual: template, linked: () => [] },
    run: { base: ({ example }) => example.inputs, common: () => new Map(), linked: () => [] },
    table: { sheet: "Sheet1", area: { row: 2, column: 1, rows: 4, columns: 3 } },
    date: "2026-11-01",
    progress: () => undefined,
    signal: cancel.signal,
    built: () => cancel.abort(),
  });
  expect(stopped.left).toBeGreaterThan(0);
  expect(await host.sheetNames()).toEqual(["Sheet1", "Alder 1", "Register of members"]);
  const seen: string[] = [];
  const { entries, register, left } = await build(host, 4, undefined, seen);
  expect(left).toBe(0);
  expect(seen).toEqual(["Alder 2"]);
  expect(register).toBe("Register of members 2");
  expect(entries.map(({ member, verdict, file }) => [member, verdict, file])).toEqual([
    ["Alder 3", "NOT BUILT", ""],
    ["Alder 2", "FAIL", "Alder 2"],
    ["Alder 1", "OK", "Alder 1"],
  ]);
  expect(entries.find(({ member }) => member === "Alder 2")!.change).toBe("new");
  await host.enterAll("Sheet1", [{ row: 4, column: 2, value: 8 }]);
  const again = await build(host, 3, undefined, seen);
  expect(seen).toEqual(["Alder 2", "Alder 2 (2)"]);
  const change = again.entries.find(({ member }) => member === "Alder 2")!.change;
  expect(change).toMatch(/^verdict FAIL → OK; utilisation/);
  expect(again.entries.find(({ member }) => member === "Alder 3")!.verdict).toBe("REMOVED");
});

it("refuses a range that is no table, with nothing built", async () => {
  const host = await hostWith([["member"]]);
  await expect(build(host, 1)).rejects.toThrow("holds no table there");
  const other = await hostWith([["name"], ["A"]]);
  await expect(build(other, 2)).rejects.toThrow(Refused);
  const many = await hostWith([["member"], ...Array.from({ length: 60 }, (_, i) => [`B${i}`])]);
  await expect(build(many, 61)).rejects.toThrow("a workbook takes 50 at once");
  expect(await many.sheetNames()).toEqual(["Sheet1"]);
});

it("marks what each row took of the office's defaults, its own choice of duct too, and shows the logo", async () => {
  const duct = (name: string, value: number) => ({ name, inputs: [{ id: "mu", value, unit: "1/rad" }] });
  const file = {
    kind: "kernbook office defaults",
    office: "Alder Office (invented)",
    version: "3",
    date: "2026-11-01",
    logo: { image: invented, width: 36 },
    ducts: [duct("Steel 80", 0.17), duct("Plastic 76", 0.14)],
  };
  const host = await hostWith([
    ["member", "duct type"],
    ["Alder 1", "Plastic 76"],
    ["Alder 2", ""],
  ]);
  const usual = templates.find(({ id }) => id === "post-tensioned-en1992-2004")!;
  const plans: Plan[] = [];
  const { entries } = await membersOnHost(host, {
    templates: { all: templates, usual, linked: () => [] },
    run: {
      base: ({ example }) => example.inputs,
      common: () => new Map(),
      linked: () => [],
      defaults: readDefaults(JSON.stringify(file), templates),
    },
    table: { sheet: "Sheet1", area: { row: 2, column: 1, rows: 3, columns: 2 } },
    date: "2026-11-01",
    progress: () => undefined,
    signal: new AbortController().signal,
    built: (plan) => plans.push(plan),
  });
  expect(entries.map(({ defaults }) => defaults.replace(/, content [0-9a-f]{8}$/, "")).sort()).toEqual([
    "Alder Office (invented) 3 (2026-11-01)",
    "Alder Office (invented) 3 (2026-11-01), Plastic 76",
  ]);
  const { row, column } = plans[0]!.meanings.find(({ id }) => id === "mu")!.at;
  for (const [sheet, value] of [
    ["Alder 1", 0.14],
    ["Alder 2", 0.17],
  ] as const) {
    const { rows } = plans[0]!;
    const cells = await host.read(sheet, { row: 0, column: 0, rows, columns: columns.mark + 1 });
    expect(cells[row]![column]!.value).toBe(value);
    expect(cells.filter((line) => line[columns.mark]!.value === "office")).toHaveLength(1);
    expect((await host.logo(sheet))?.image).toBe(invented);
  }
});
