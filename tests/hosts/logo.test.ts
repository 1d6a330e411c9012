import { execFileSync, spawnSync } from "node:child_process";
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { strFromU8, strToU8, unzipSync, zipSync } from "fflate";
import { afterAll, beforeAll, describe, expect, it, vi } from "vitest";
import { compare, readHandOut } from "../../src/checker/index.ts";
import { openGridInNode, openWorkbook, planValues, writeBook, writeWorkbook } from "../../src/hosts/index.ts";
import type { GridHost } from "../../src/hosts/index.ts";
import {
  expand,
  faultOfLogo,
  logoLimits,
  logoName,
  logoOfPlaced,
  pictureIn,
  withLogo,
  type Logo,
} from "../../src/sheet/index.ts";
import { templates } from "../../src/templates/index.ts";
import { memoryCalculator } from "./excelFake/memoryCalculator.ts";
import { blankPng } from "./blankPng.ts";
import { field, invented } from "./logoPictures.ts";
import { openFake } from "./openFake.ts";
import { smallPlan } from "./smallPlan.ts";

const logo: Logo = { image: invented, width: 36, text: "Alder Office (invented)" };
const template = templates.find(({ id }) => id === "pre-tensioned-is1343-1980")!;
const bare = expand(template, template.example.inputs);
const plan = withLogo(bare, logo);
const name = "Beam";
const place = plan.logo!;

const bytesOf = (image: string): Buffer => Buffer.from(image.slice(image.indexOf(",") + 1), "base64");
const png = (bytes: Uint8Array): string => `data:image/png;base64,${Buffer.from(bytes).toString("base64")}`;

describe("the picture of a logo", () => {
  it("is a PNG or a JPEG, known by its bytes, with its size", () => {
    expect(pictureIn(invented)).toMatchObject({ kind: "png", width: 320, height: 80 });
    expect(pictureIn(field)).toMatchObject({ kind: "jpeg", width: 24, height: 8 });
    expect(faultOfLogo(logo)).toBeUndefined();
    expect(faultOfLogo({ image: field, width: 30 })).toBeUndefined();
  });

  it("is read once, however often it is asked for", () => {
    // Bytes before the end, as of a comment: a picture that no other test has read.
    const bytes = bytesOf(invented);
    const own = png(Buffer.concat([bytes.subarray(0, -12), Buffer.alloc(3), bytes.subarray(-12)]));
    const decoded = vi.spyOn(globalThis, "atob");
    try {
      const placed = withLogo(bare, { ...logo, image: own });
      expect(faultOfLogo(logoOfPlaced(placed.logo!))).toBeUndefined();
      expect(pictureIn(own)).toMatchObject({ kind: "png", width: 320, height: 80 });
      expect(decoded).toHaveBeenCalledTimes(1);
    } finally {
      decoded.mockRestore();
    }
  });

  it("is refused in words, with what is allowed", () => {
    const svg = `data:image/svg+xml;base64,${Buffer.from("<svg/>").toString("base64")}`;
    expect(faultOfLogo({ image: svg, width: 30 })).toMatch(/SVG is not taken.*PNG or JPEG/);
    expect(faultOfLogo({ image: "https://example.com/logo.png", width: 30 })).toMatch(/no picture as data:image/);
    expect(faultOfLogo({ image: png(Buffer.from("GIF89a, which it is not")), width: 30 })).toMatch(/first bytes/);
    expect(faultOfLogo({ image: invented.replace("png", "jpeg"), width: 30 })).toMatch(/says image\/jpeg and is a PNG/);
    expect(faultOfLogo({ image: png(bytesOf(invented).subarray(0, 300)), width: 30 })).toMatch(/cut short/);
    const large = Buffer.concat([bytesOf(invented), Buffer.alloc(logoLimits.bytes)]);
    expect(faultOfLogo({ image: png(large), width: 30 })).toBe(
      `image: it has ${large.length} bytes; at most ${logoLimits.bytes}`,
    );
    const wide = Buffer.from(bytesOf(invented));
    wide.writeUInt32BE(5000, 16);
    expect(faultOfLogo({ image: png(wide), width: 30 })).toMatch(/5000 × 80 pixels; from 1 to 4000/);
  });

  it("is of a width that stands in the row of the verdict", () => {
    expect(faultOfLogo({ ...logo, width: 4 })).toBe("width = 4 mm; from 5 to 40 mm");
    expect(faultOfLogo({ ...logo, width: Number.NaN })).toBe("width = NaN mm; from 5 to 40 mm");
    const square = Buffer.from(bytesOf(invented));
    square.writeUInt32BE(80, 16);
    expect(faultOfLogo({ image: png(square), width: 20 })).toBe(
      "width = 20 mm makes it 20 mm high; at most 10 mm, with a width up to 10 mm",
    );
    expect(() => withLogo(bare, { ...logo, width: 41 })).toThrow("width = 41 mm; from 5 to 40 mm");
  });
});

describe("a plan with a logo", () => {
  it("has the same cells, rows and hash; only the verdict's text makes room", () => {
    const { logo: _logo, spans, ...rest } = plan;
    const { spans: before, ...same } = bare;
    expect(rest).toEqual(same);
    const differing = spans.filter((span) => !before.some((one) => JSON.stringify(one) === JSON.stringify(span)));
    expect(differing).toEqual([{ row: 1, column: 3, rows: 1, columns: place.at.column - 3 }]);
    // 36 mm on paper, where the sheet is printed at 80 %.
    expect([place.width, place.height]).toEqual([45, 11.25]);
    expect(logoOfPlaced(place)).toEqual(logo);
    expect(withLogo(plan, { image: field, width: 20 })).toBe(plan);
  });
});

describe("a logo in files and hosts", () => {
  let host: GridHost;
  let bytes: Uint8Array;
  /** The parts of a file whose drawing holds no charts. */
  let logoOnly: Record<string, Uint8Array>;
  beforeAll(async () => {
    bytes = writeWorkbook(plan, planValues(plan, name)!, name);
    const { workbook } = openWorkbook(bytes);
    logoOnly = unzipSync(writeBook({ ...workbook, sheets: [{ ...workbook.sheets[0]!, charts: [] }] }));
    host = await openGridInNode();
  });
  afterAll(() => host?.dispose());

  it("is a picture of the drawing, with its own bytes, and comes back as it was", () => {
    const parts = unzipSync(bytes);
    expect(Buffer.from(parts["xl/media/image1.png"]!)).toEqual(bytesOf(invented));
    expect(strFromU8(parts["[Content_Types].xml"]!)).toContain('<Default Extension="png" ContentType="image/png"/>');
    const drawing = strFromU8(parts["xl/drawings/drawing1.xml"]!);
    expect(drawing).toContain(`name="${logoName}" descr="Alder Office (invented)"`);
    // 36,000 of the file's units are a millimetre.
    expect(drawing).toContain(`<xdr:ext cx="${45 * 36_000}" cy="${11.25 * 36_000}"/>`);
    const { workbook, notUnderstood } = openWorkbook(bytes);
    expect(notUnderstood).toEqual([]);
    expect(workbook.sheets[0]!.logo).toEqual(place);
  });

  it("is one part of the file for all sheets that show it", () => {
    const { workbook } = openWorkbook(bytes);
    const [sheet] = workbook.sheets;
    const twice = writeBook({ ...workbook, sheets: [sheet!, { ...sheet!, name: "Other", charts: [], names: [] }] });
    expect(Object.keys(unzipSync(twice)).filter((part) => part.includes("media"))).toEqual(["xl/media/image1.png"]);
    expect(openWorkbook(twice).workbook.sheets.map(({ logo: of }) => of)).toEqual([place, place]);
  });

  it("is kept by the grid, where Compare finds no difference, and goes into copies", async () => {
    await host.open(openWorkbook(bytes).workbook);
    expect(await host.logo(name)).toEqual(logo);
    expect(host.showsLogos).toBe(false);
    expect((await compare(host, name))?.findings).toEqual([]);
    expect((await host.contents()).sheets[0]!.logo).toEqual(place);
    const { plan: copy } = await readHandOut(host, name, { when: "today", host: "test" });
    expect(copy.logo).toMatchObject({ image: invented, width: 45, at: { row: 5 } });
    const { at } = copy.logo!;
    expect(copy.spans.filter(({ row, column, columns }) => row === at.row && column + columns > at.column)).toEqual([]);
  }, 240_000);

  it("is told where a picture of that name is none that an office's file could hold", () => {
    const parts = unzipSync(bytes);
    expect(parts["xl/media/image1.png"]!.length).toBeGreaterThan(500);
    const { workbook } = openWorkbook(bytes);
    const [sheet] = workbook.sheets;
    const high = writeBook({ ...workbook, sheets: [{ ...sheet!, logo: { ...place, width: 400, height: 100 } }] });
    const opened = openWorkbook(high);
    expect(opened.notUnderstood).toEqual(["pictures and shapes: not kept (“Beam”)"]);
    expect(opened.workbook.sheets[0]!.logo).toBeUndefined();
  });

  it.each([
    ["a row that is no number", (xml: string) => xml.replace(/(<xdr:row>)\d+/, "$1one")],
    ["a row below 0", (xml: string) => xml.replace(/(<xdr:row>)\d+/, "$1-1")],
    ["half a column", (xml: string) => xml.replace(/(<xdr:col>)\d+/, "$12.5")],
    ["an offset without end", (xml: string) => xml.replace(/(<xdr:colOff>)\d+/, "$11e400")],
    ["an offset to the left", (xml: string) => xml.replace(/(<xdr:colOff>)\d+/, "$1-36000000")],
    ["an offset far down", (xml: string) => xml.replace(/(<xdr:rowOff>)\d+/, `$1${300 * 36_000}`)],
    ["a height over the rows below", (xml: string) => xml.replace(/(<xdr:ext cx="\d+" cy=")\d+/, "$13600000")],
    ["a place over the verdict", (xml: string) => xml.replace(/(<xdr:col>)\d+/, "$13")],
    ["a place over the title", (xml: string) => xml.replace(/(<xdr:row>)\d+/, "$10")],
    ["a place over the rows of a block", (xml: string) => xml.replace(/(<xdr:row>)\d+/, "$112")],
  ])("is not kept from a file with %s, and that is told", (_what, changed) => {
    const drawing = strFromU8(logoOnly["xl/drawings/drawing1.xml"]!);
    expect(changed(drawing)).not.toBe(drawing);
    const opened = openWorkbook(zipSync({ ...logoOnly, "xl/drawings/drawing1.xml": strToU8(changed(drawing)) }));
    expect(opened.workbook.sheets[0]!.logo).toBeUndefined();
    expect(opened.notUnderstood).toEqual(["pictures and shapes: not kept (“Beam”)"]);
  });

  it("has a text from a file no longer than an office's file may say, and no picture larger", () => {
    const drawing = strFromU8(logoOnly["xl/drawings/drawing1.xml"]!).replace(
      /descr="[^"]*"/,
      `descr="${"🏗".repeat(500)}"`,
    );
    const long = openWorkbook(zipSync({ ...logoOnly, "xl/drawings/drawing1.xml": strToU8(drawing) }));
    expect(long.workbook.sheets[0]!.logo?.text).toBe("🏗".repeat(120));
    const encoded = vi.spyOn(globalThis, "btoa");
    try {
      const large = new Uint8Array(8 * logoLimits.bytes);
      expect(
        openWorkbook(zipSync({ ...logoOnly, "xl/media/image1.png": large })).workbook.sheets[0]!.logo,
      ).toBeUndefined();
      expect(encoded).not.toHaveBeenCalled();
    } finally {
      encoded.mockRestore();
    }
  });

  it("is still there after LibreOffice has saved the file", ({ skip }) => {
    if (spawnSync("soffice", ["--version"]).status !== 0) skip("LibreOffice (soffice) is not on this machine");
    const folder = mkdtempSync(join(tmpdir(), "kernbook-logo-"));
    try {
      writeFileSync(join(folder, "in.xlsx"), bytes);
      const profile = `-env:UserInstallation=file://${join(folder, "profile")}`;
      const to = ["--convert-to", "xlsx:Calc MS Excel 2007 XML", "--outdir", join(folder, "out")];
      execFileSync("soffice", [profile, "--headless", ...to, join(folder, "in.xlsx")], {
        stdio: "ignore",
        timeout: 240_000,
      });
      const [sheet] = openWorkbook(readFileSync(join(folder, "out", "in.xlsx"))).workbook.sheets;
      const back = sheet!.logo!;
      expect([back.image, back.text, back.at]).toEqual([place.image, place.text, place.at]);
      // LibreOffice counts in hundredths of a millimetre and moves corners by less than a pixel.
      for (const key of ["width", "height", "across", "down"] as const)
        expect(Math.abs(back[key] - place[key])).toBeLessThan(0.3);
    } finally {
      rmSync(folder, { recursive: true, force: true });
    }
  }, 300_000);
});

describe("a logo in the spreadsheet program", () => {
  const own = withLogo({ ...smallPlan, columns: 16, widths: bare.widths }, logo);

  it("is a picture with name, text and size, and is read back", async () => {
    const { excel, host } = openFake({ calculator: memoryCalculator() });
    await host.apply(own, { sheetName: name, progress: () => undefined });
    const [shape] = excel.workbook.sheets.find((sheet) => sheet.name === name)!.shapes;
    expect(shape).toMatchObject({ name: logoName, altTextDescription: logo.text, lockAspectRatio: true });
    const mm = (points: number): number => (points / 72) * 25.4;
    // The program holds sizes in pixels of 1/96 inch: half of one is what they may be off.
    const half = 25.4 / 96 / 2;
    expect(Math.abs(mm(shape!.width) - 45)).toBeLessThanOrEqual(half);
    expect(Math.abs(mm(shape!.height) - 11.25)).toBeLessThanOrEqual(half);
    const back = (await host.logo(name))!;
    expect(back.text).toBe(logo.text);
    // Read to the hundredth, and printed at 80 %.
    expect(Math.abs(back.width - 36)).toBeLessThanOrEqual(half * 0.8 + 0.01);
  });

  it.each([
    ["of the greatest width and height", { ...logo, width: 40 }],
    ["of the greatest width", { image: `data:image/png;base64,${blankPng(400, 60)}`, width: 40 }],
    ["of the least width", { image: `data:image/png;base64,${blankPng(100, 50)}`, width: 5 }],
  ])("%s is read back as one that may be placed, though the program has rounded its sizes", async (_what, one) => {
    expect(faultOfLogo(one)).toBeUndefined();
    const { host } = openFake({ calculator: memoryCalculator() });
    await host.apply(withLogo({ ...smallPlan, columns: 16, widths: bare.widths }, one), {
      sheetName: name,
      progress: () => undefined,
    });
    const back = (await host.logo(name))!;
    expect(faultOfLogo(back)).toBeUndefined();
    // A pixel more each way on a picture of 47 pixels' height is the most that it loses.
    expect(Math.abs(back.width - one.width) / one.width).toBeLessThanOrEqual(1.5 / 47);
  });

  it("is none on a sheet without", async () => {
    const { host } = openFake({ calculator: memoryCalculator() });
    await host.apply(smallPlan, { sheetName: name, progress: () => undefined });
    expect(await host.logo(name)).toBeUndefined();
  });
});
