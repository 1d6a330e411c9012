import { all, create } from "mathjs";
import { beforeAll, describe, expect, it } from "vitest";
import { a1, functionsIn, ourFunction, type Address, type Area, type CellContent } from "../../src/cells/index.ts";
import { isBuilt, linkedPlan, NotReportable, readMember, reportOf, reportSheetPlan } from "../../src/checker/index.ts";
import { asRead, expand, withLogo, type PlannedChart } from "../../src/sheet/index.ts";
import { allTemplates } from "../../src/templates/index.ts";
import { escape, html } from "../../src/typeset/index.ts";
import { decidingCells } from "../../src/checker/report/deciding.ts";
import { Followed } from "../../src/checker/report/followed.ts";
import { keyRows } from "../../src/checker/report/keyRows.ts";
import { readCellText } from "../../src/checker/report/read.ts";
import { invented } from "../hosts/logoPictures.ts";
import { MemoryHost } from "../hosts/memory/memoryHost.ts";
import { MemoryFaults } from "./memoryFaults.ts";

const templateOf = (id: string) => allTemplates.find((one) => one.id === id)!;
const source = templateOf("post-tensioned-is1343-1980");
const others = ["end-zones-post-tensioned-is1343-1980", "cross-check-post-tensioned-is1343-1980"].map(templateOf);
const progress = (): void => undefined;
const math = create(all!);
const facts = { date: "1 January 2026, 12:00 UTC" };

const host = new MemoryHost();
const charts: PlannedChart[] = [];
const shares: number[] = [];
const written = (sheet: string): Promise<string> =>
  reportOf(host, sheet, facts, {
    setting: { math, mathml: (tex) => `<math>${escape(tex)}</math>` },
    picture: (chart) => {
      charts.push(chart);
      return html`<svg></svg>`;
    },
    progress: (share) => shares.push(share),
  });

const quiet = { setting: { math, mathml: (tex: string) => tex }, picture: () => html`<svg></svg>` };

/** A sheet on which some cells have become another formula, whatever can be read or computed. */
class Altered extends MemoryHost {
  constructor(
    private readonly cells: readonly Address[],
    private readonly formula: string,
  ) {
    super();
  }
  override async read(name: string, area: Area): Promise<readonly (readonly CellContent[])[]> {
    const rows = await super.read(name, area);
    const isAltered = (row: number, column: number): boolean =>
      this.cells.some((at) => at.row === area.row + row && at.column === area.column + column);
    return rows.map((line, r) => line.map((cell, c) => (isAltered(r, c) ? { ...cell, formula: this.formula } : cell)));
  }
}

let report = "";
beforeAll(async () => {
  const member = { ...source.example.inputs, member: 'B1 <main> & "side"' };
  const logo = { image: invented, width: 30, text: "Alder & Co (invented)" };
  await host.apply(withLogo(expand(source, member), logo), { sheetName: "Beam 1", progress });
  for (const [i, template] of others.entries())
    await host.apply(await linkedPlan(host, template, "Beam 1", template.example.inputs), {
      sheetName: `Linked ${i + 1}`,
      progress,
    });
  report = await written("Beam 1");
});

describe("the report on a member", () => {
  it("begins with the logo of the member's first sheet", () => {
    expect(report).toContain(
      `<img class="kn-logo" src="${invented}" alt="Alder &amp; Co (invented)" style="width: 30mm">`,
    );
    expect(report).toContain("img-src data:;");
  });

  it("is the same from whichever of its sheets it is asked for", async () => {
    const from = await readMember(host, "Linked 2");
    expect(from.map(({ of }) => of.snapshot.sheet)).toEqual(["Beam 1", "Linked 1", "Linked 2"]);
    expect((await readMember(host, "Beam 1")).map(({ overall }) => overall)).toEqual(
      from.map(({ overall }) => overall),
    );
  });

  it("says every verdict, check and warning of every sheet as the sheet does", async () => {
    for (const [i, { of, overall, checks, warnings }] of (await readMember(host, "Beam 1")).entries()) {
      const { row, column } = of.plan.summary.overall;
      expect(overall).toBe((await host.read(of.snapshot.sheet, { row, column, rows: 1, columns: 1 }))[0]![0]!.text);
      expect(checks).toHaveLength(of.plan.summary.checks.length);
      const from = report.indexOf(`id="sheet-${i + 1}"`);
      const rows = report.slice(from, report.indexOf("</table>", report.indexOf(">utilisation<", from))).split("<tr>");
      for (const [n, { verdict, where }] of checks.entries()) {
        const at = of.plan.summary.checks[n]!.verdict;
        const cell = await host.read(of.snapshot.sheet, { ...at, rows: 1, columns: 1 });
        expect(verdict).toBe(cell[0]![0]!.text);
        // Below the headings the checks stand in their order.
        const told = rows.slice(-checks.length)[n]!;
        expect(told).toContain(`<td>${escape(verdict)}</td>`);
        expect(told).toContain(`<td>${escape(where)}</td>`);
      }
      for (const text of warnings) expect(report).toContain(escape(text));
    }
  });

  it("says which check governs as the sheet's own first page does", async () => {
    for (const sheet of await readMember(host, "Beam 1")) {
      const { checks } = sheet.of.plan.summary;
      const said = checks.map((check, i) => ({ ...check, ...sheet.checks[i]! }));
      const first = asRead(said, (one) => one)[0]!;
      const summary = report.slice(
        report.indexOf("governing check"),
        report.indexOf("</table>", report.indexOf("governing check")),
      );
      if (typeof first.utilisation === "number") expect(summary).toContain(escape(first.description));
    }
  });

  it("does not call OK what has lost its verdict", async () => {
    const faults = new MemoryFaults();
    const plan = expand(source, source.example.inputs);
    await faults.host.apply(plan, { sheetName: "Beam", progress });
    await faults.unprotected("Beam");
    await faults.deleteRows("Beam", plan.summary.checks[0]!.verdict.row, 1);
    const text = await reportOf(faults.host, "Beam", facts, quiet);
    expect(text).not.toContain("Every check of every sheet says OK.");
    expect(text).toContain("NO VERDICT");
  });

  it("is not made of two states of a sheet", async () => {
    const faults = new MemoryFaults();
    const plan = expand(source, source.example.inputs);
    await faults.host.apply(plan, { sheetName: "Beam", progress });
    const at = plan.meanings.find(({ id }) => id === "ql")!.at;
    let done = false;
    const edit = (): void => {
      if (done) return;
      done = true;
      void faults.host.enter({ sheet: "Beam", row: at.row, column: at.column }, 9);
    };
    await expect(reportOf(faults.host, "Beam", facts, { ...quiet, progress: edit })).rejects.toThrow("make it again");
  });

  it("has every number of every sheet, and of each function that computes there the source", async () => {
    const member = await readMember(host, "Beam 1");
    const functions = new Set<string>();
    for (const { of, blocks } of member) {
      const told = new Set(blocks.flatMap(({ items }) => items.map(({ item }) => item)));
      // The revision table is told with those of all sheets.
      const records = new Set(of.plan.cells.filter(({ role }) => role === "record").map(({ row }) => row));
      const numbered = new Set(
        of.plan.meanings.flatMap(({ item, at }) => (item === "" || records.has(at.row) ? [] : [item])),
      );
      expect([...numbered].filter((item) => !told.has(item))).toEqual([]);
      for (const { formula } of of.plan.cells)
        for (const name of formula === undefined ? [] : functionsIn(formula)) {
          const id = ourFunction(name);
          if (id !== undefined) functions.add(id);
        }
    }
    const sources = report.slice(report.indexOf("functions that follow it"));
    // What only counts warnings or marks computes nothing of the member.
    const silent = new Set(["WARNINGS", "INPUT_WARNINGS", "WARNINGS_CODE", "CHECKED", "VERSION"]);
    expect(functions.size).toBeGreaterThan(40);
    expect([...functions].filter((id) => !silent.has(id) && !sources.includes(id))).toEqual([]);
  });

  it("draws each chart of each sheet once, tells its progress to the end, and leaves no cell unsaid", async () => {
    const drawn = (await readMember(host, "Beam 1")).flatMap(({ of }) => of.plan.charts);
    expect(charts.map(({ id }) => id).sort()).toEqual(drawn.map(({ id }) => id).sort());
    expect(shares.at(-1)).toBe(1);
    expect(report).not.toMatch(/undefined|NaN|\[object/);
    expect(report).toContain("B1 &lt;main&gt; &amp; &quot;side&quot;");
    expect(report).not.toContain("<main> &");
  });

  it("has in its appendix alone every row of a long table, and every value with its numbers", async () => {
    const full = await reportOf(host, "Beam 1", facts, { ...quiet, appendix: true });
    expect(report).not.toContain("Appendix: workings");
    const appendix = full.slice(full.indexOf("Appendix: workings"));
    expect(appendix.length).toBeGreaterThan(2 * report.length);
    const [{ blocks }] = await readMember(host, "Beam 1");
    const tables = blocks.flatMap(({ items }) => items.flatMap((item) => (item.kind === "table" ? [item] : [])));
    const long = tables.find(({ columns }) => columns[0]!.cells.length > 50)!;
    for (const cell of long.columns.at(-1)!.cells) expect(appendix).toContain(`>${escape(readCellText(cell))}<`);
  });

  it("tells of a long table each row that does not pass, and those that decide a check", async () => {
    const other = new MemoryHost();
    const plan = expand(source, { ...source.example.inputs, ql: 60 });
    await other.apply(plan, { sheetName: "Beam", progress });
    const [beam] = await readMember(other, "Beam");
    expect(beam.overall).toBe("FAIL");
    const deciding = decidingCells(beam, new Followed());
    const tables = beam.blocks.flatMap(({ items }) => items.flatMap((item) => (item.kind === "table" ? [item] : [])));
    let failing = 0;
    for (const { columns } of tables) {
      const { rows, of, failingLeftOut } = keyRows(columns, deciding);
      if (of > 6) expect(rows.length).toBeLessThan(of);
      const fails = Array.from({ length: of }, (_, i) => i).filter((i) =>
        columns.some(({ cells }) => cells[i]?.content.value === "FAIL"),
      );
      failing += fails.length;
      expect(fails.filter((i) => !rows.includes(i)).length).toBeLessThanOrEqual(failingLeftOut);
    }
    expect(failing).toBeGreaterThan(0);
    const governs = beam.checks.reduce((a, b) => (Number(b.utilisation) > Number(a.utilisation) ? b : a));
    const at = /x = ([\d.]+) m/.exec(governs.where)?.[1];
    expect(at, governs.where).toBeDefined();
    const stations = tables.filter(({ columns }) => columns.some(({ meaning }) => meaning.id === "x"));
    const told = stations.flatMap(({ columns }) => {
      const x = columns.find(({ meaning }) => meaning.id === "x")!;
      return keyRows(columns, deciding).rows.map((i) => Number(x.cells[i]!.content.value).toFixed(2));
    });
    expect(told).toContain(at);
  });

  it("goes on without formulas that cannot be read, and lists them", async () => {
    const plan = expand(source, source.example.inputs);
    const governs = plan.summary.checks[0]!.utilisation;
    const worked = plan.meanings.find(({ id }) => id === "Ac")!.at;
    const other = new Altered([governs, worked], "=SUM(");
    await other.apply(plan, { sheetName: "Beam", progress });
    const text = await reportOf(other, "Beam", facts, quiet);
    const from = text.indexOf("<h2>Formulas that could not be read</h2>");
    expect(from).toBeGreaterThan(0);
    const listed = text.slice(from, text.indexOf("</ul>", from));
    for (const at of [governs, worked]) expect(listed).toContain(`<li>${a1(at)}: =SUM(</li>`);
    expect(listed.split("<li>")).toHaveLength(3);
    expect(report).not.toContain("could not be read");
  });

  it("shows the equations of every part of a table, and one function under each of its choices", async () => {
    const plan = expand(source, source.example.inputs);
    const last = plan.meanings.find(({ id, at }) => id === "vmin" && at.rows > 6)!.at;
    const at = { row: last.row + last.rows - 1, column: last.column };
    const call = (wobble: string): string => `KERN.FRICTION_STRESS(0.1,0.2,0.002,"${wobble}",1000,5)`;
    const other = new Altered([at], `=${call("1/m")}-${call("rad/m")}`);
    await other.apply(plan, { sheetName: "Beam", progress });
    const text = await reportOf(other, "Beam", facts, quiet);
    const shown = text.split("<code>KERN.FRICTION_STRESS</code>").slice(1);
    expect(shown.map((one) => one.slice(0, one.indexOf("Here:")).includes("5.10.5.2"))).toEqual([false, true]);
  });

  it("can be given up", async () => {
    const end = new AbortController();
    end.abort(new Error("given up"));
    await expect(
      reportOf(host, "Beam 1", facts, {
        setting: { math, mathml: (tex) => tex },
        picture: () => html`<svg></svg>`,
        signal: end.signal,
      }),
    ).rejects.toThrow("given up");
  });

  it("counts what is assumed and what is signed off", async () => {
    const other = new MemoryHost();
    const plan = expand(source, source.example.inputs);
    await other.apply(plan, { sheetName: "Beam", progress });
    const fck = plan.meanings.find(({ id }) => id === "fck")!;
    await other.enterAll("Beam", [{ row: fck.at.row, column: 15, value: "assumed" }]);
    const [beam] = await readMember(other, "Beam");
    expect(beam.assumed).toEqual([`${fck.item} ${fck.description}`]);
    expect(beam.marks).toMatchObject({ marked: 0, stale: 0 });
    const summary = reportSheetPlan([beam], facts).cells;
    const { row } = summary.find(({ role }) => role === "overall")!;
    expect(summary.filter((cell) => cell.row === row + 1).map(({ value }) => value)).toEqual([
      "1 assumption not confirmed",
    ]);
    const text = await reportOf(other, "Beam", facts, quiet);
    const beside = `<strong>${beam.overall}</strong><br><span class="kn-quiet">1 assumption not confirmed</span>`;
    expect(text).toContain(beside);
    expect(text).toContain(`<td>${beam.overall}, 1 assumption not confirmed</td>`);
  });

  it("has the cautions before its contents, and says nothing of where it was computed", () => {
    const [caution, contents] = [report.indexOf('kn-caution">'), report.indexOf("<h2>Contents</h2>")];
    expect(caution).toBeGreaterThan(0);
    expect(caution).toBeLessThan(contents);
    expect(report).toContain("<td>1 January 2026, 12:00 UTC, Kernbook ");
  });

  it("stands as a sheet too, with the verdict of each", async () => {
    const member = await readMember(host, "Beam 1");
    const plan = reportSheetPlan(member, facts);
    await host.apply(plan, { sheetName: "Report", progress });
    const cells = await host.read("Report", { row: 0, column: 0, rows: plan.rows, columns: plan.columns });
    const texts = cells.flat().map(({ text }) => text);
    for (const { of, overall, checks } of member) {
      expect(texts).toContain(of.snapshot.sheet);
      expect(texts).toContain(overall);
      for (const { description } of checks) expect(texts).toContain(description);
    }
    expect(cells.flat().every(({ formula }) => formula === undefined)).toBe(true);
    expect(await Promise.all(["Beam 1", "Linked 1", "Report"].map((sheet) => isBuilt(host, sheet)))).toEqual([
      true,
      true,
      false,
    ]);
    expect((await readMember(host, "Beam 1")).map(({ of }) => of.snapshot.sheet)).not.toContain("Report");
  });
});

describe("no report", () => {
  it("on a sheet that no template built", async () => {
    await expect(readMember(host, "Sheet1")).rejects.toThrow(NotReportable);
  });

  it("on a linked sheet whose source is gone", async () => {
    const faults = new MemoryFaults();
    const alone = faults.host;
    await alone.apply(expand(source, source.example.inputs), { sheetName: "Beam", progress });
    await alone.apply(await linkedPlan(alone, others[1]!, "Beam", others[1]!.example.inputs), {
      sheetName: "Linked",
      progress,
    });
    await faults.remove("Beam");
    await expect(readMember(alone, "Linked")).rejects.toThrow("link it again under Build");
  });
});
