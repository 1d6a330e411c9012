import { strFromU8, strToU8, unzipSync, zipSync } from "fflate";
import { describe, expect, it } from "vitest";
import {
  CannotOpen,
  emptySheet,
  openWorkbook,
  ownLimits,
  writeBook,
  type BookSheet,
  type OpenedFile,
  type Workbook,
} from "../../src/hosts/index.ts";

const sheet = (change: Partial<BookSheet> = {}): BookSheet => ({
  name: "Data",
  ...emptySheet,
  rows: 1,
  columns: 1,
  ...change,
});
const book = (...sheets: readonly BookSheet[]): Workbook => ({
  sheets,
  names: [],
  properties: { creator: "Kernbook" },
});

const plain = writeBook(book(sheet({ cells: [{ row: 0, column: 0, value: 1, look: {} }] })));
const sheetPart = "xl/worksheets/sheet1.xml";

/** The plain file with some parts changed or added. */
function changed(parts: Readonly<Record<string, string | ((text: string) => string)>>): Uint8Array {
  const files = unzipSync(plain);
  for (const [name, change] of Object.entries(parts))
    files[name] = strToU8(typeof change === "string" ? change : change(strFromU8(files[name]!)));
  return zipSync(files);
}

const entryRules = (...all: readonly string[]): string => `<dataValidations>${all.join("")}</dataValidations>`;
const entryRule = (attributes: string, formula = "0"): string =>
  `<dataValidation ${attributes}><formula1>${formula}</formula1></dataValidation>`;
const above = 'type="whole" operator="greaterThan"';

/** The plain file with a part of this name, which an object of parts cannot hold. */
function changedWithProto(): Uint8Array {
  const name = "--proto--";
  const bytes = changed({ [name]: "x" });
  const [from, to] = [strToU8(name), strToU8("__proto__")];
  for (let i = 0; i + from.length <= bytes.length; i++) if (from.every((b, k) => bytes[i + k] === b)) bytes.set(to, i);
  return bytes;
}

const rows = (text: string) => (xml: string) =>
  xml.replace(/<sheetData>.*<\/sheetData>/s, `<sheetData>${text}</sheetData>`);

function reason(bytes: Uint8Array): string {
  try {
    openWorkbook(bytes);
  } catch (error) {
    if (error instanceof CannotOpen) return error.message;
    throw error;
  }
  return "opened";
}

describe("what was written here", () => {
  it("is opened again, however much it is", () => {
    const long = "a".repeat(40_000);
    const sheets = Array.from({ length: 101 }, (_, i) =>
      sheet({ name: `Sheet${i + 1}`, cells: [{ row: 0, column: 0, value: long, look: {} }] }),
    );
    const written = writeBook(book(...sheets));
    expect(reason(written)).toMatch(/101 sheets/);
    const { workbook } = openWorkbook(written, ownLimits);
    expect(workbook.sheets.map(({ cells }) => cells[0]!.value)).toEqual(sheets.map(() => long));
  });

  it("keeps the subscripts of a text, which is the plain text all the same", () => {
    const look = { font: "Arial", size: 10, italic: true, color: "#1d2733" } as const;
    const cells = [
      {
        row: 0,
        column: 0,
        value: "σp0 = Pj/Ap ",
        lowered: [
          [1, 3],
          [7, 8],
          [10, 11],
        ],
        look,
      },
      { row: 1, column: 0, value: "σp0 = Pj/Ap ", look },
    ] as const;
    const bytes = writeBook(book(sheet({ rows: 2, cells })));
    const { workbook, notUnderstood } = openWorkbook(bytes);
    expect(workbook.sheets[0]!.cells).toEqual(cells);
    expect(notUnderstood).toEqual([]);
    expect(strFromU8(unzipSync(bytes)["xl/sharedStrings.xml"]!)).toContain('<vertAlign val="subscript"/>');
  });
});

describe("what is refused, and why", () => {
  const external = { "xl/externalLinks/externalLink1.xml": "<externalLink/>" };
  it.each<readonly [string, Uint8Array, RegExp]>([
    ["an empty file", new Uint8Array(), /is empty/],
    ["a text", strToU8("a,b\n1,2"), /no \.xlsx workbook/],
    ["a file with a password or of the old kind", new Uint8Array([0xd0, 0xcf, 0x11, 0xe0, 0xa1]), /password/],
    ["another zip", zipSync({ "a.txt": strToU8("a") }), /no \.xlsx workbook/],
    ["a file cut short", plain.slice(0, 900), /damaged or was cut short/],
    ["macros by their part", changed({ "xl/vbaProject.bin": "x" }), /macros/],
    [
      "macros by the kind of file",
      changed({ "[Content_Types].xml": (text) => text.replace("sheet.main+xml", "sheet.macroEnabled.main+xml") }),
      /macros/,
    ],
    [
      "values of other workbooks",
      changed({ ...external, [sheetPart]: rows('<row r="1"><c r="A1"><f>[1]Data!$B$2*2</f><v>4</v></c></row>') }),
      /takes values from other workbooks .*“Data”/,
    ],
    [
      "a name that leads to another workbook",
      changed({
        ...external,
        "xl/workbook.xml": (text) =>
          text.replace(
            "<calcPr",
            "<definedNames><definedName name=\"far\">'[1]Data'!$A$1</definedName></definedNames><calcPr",
          ),
      }),
      /name far refers to another workbook/,
    ],
    [
      "a million rows",
      changed({ [sheetPart]: rows('<row r="1048576"><c r="A1048576"><v>1</v></c></row>') }),
      /“Data” holds something in A1048576; sheets of up to 20,000 rows/,
    ],
    ["broken XML", changed({ [sheetPart]: (text) => text.replace("</sheetData>", "") }), /sheet1\.xml cannot be read/],
    [
      "entities",
      changed({ [sheetPart]: (text) => text.replace("<worksheet", '<!DOCTYPE a [<!ENTITY b "bb">]><worksheet') }),
      /document type or entities/,
    ],
    [
      "a text that is not there",
      changed({ [sheetPart]: rows('<row r="1"><c r="A1" t="s"><v>99</v></c></row>') }),
      /A1 of “Data” names a text that is not there/,
    ],
    [
      "a number that is none",
      changed({ [sheetPart]: rows('<row r="1"><c r="A1"><v>1,5</v></c></row>') }),
      /A1 of “Data” holds “1,5”, which is no number/,
    ],
    [
      "a missing part",
      zipSync(Object.fromEntries(Object.entries(unzipSync(plain)).filter(([n]) => n !== sheetPart))),
      /no part/,
    ],
  ])("%s", (_what, bytes, why) => {
    expect(reason(bytes)).toMatch(why);
  });

  const cell = (inside: string): Uint8Array => changed({ [sheetPart]: rows(`<row r="1">${inside}</row>`) });
  it.each<readonly [string, Uint8Array, RegExp]>([
    ["a text longer than a cell", cell(`<c r="A1" t="str"><v>${"a".repeat(32_768)}</v></c>`), /A1 .*32,768 characters/],
    ["a formula longer than a cell", cell(`<c r="A1"><f>1${"+1".repeat(5000)}</f></c>`), /A1 .*10,00\d characters/],
    [
      "brackets within brackets",
      cell(`<c r="A1"><f>${"ABS(".repeat(200)}1${")".repeat(200)}</f></c>`),
      /A1 .*200 brackets/,
    ],
    ["a row before the first", changed({ [sheetPart]: rows('<row r="-5"><c><v>1</v></c></row>') }), /row “-5”/],
    ["an entity that is none", cell('<c r="A1" t="str"><v>&constructor;</v></c>'), /damaged/],
    ["an element without an end", changed({ [sheetPart]: `<${"a".repeat(300_000)}` }), /damaged/],
  ])("%s", (_, bytes, why) => {
    expect(reason(bytes)).toMatch(why);
  });

  const rule = (i: number) =>
    `<cfRule type="expression" dxfId="0" priority="${i}"><formula>A1&gt;${i}</formula></cfRule>`;
  const beside = (text: string): Uint8Array =>
    changed({ [sheetPart]: (xml) => xml.replace("</sheetData>", `</sheetData>${text}`) });
  const areas = (n: number): string => Array.from({ length: n }, (_, i) => `B${(i % 150) + 1}`).join(" ");
  const names = Array.from({ length: 50_001 }, (_, i) => `<definedName name="n_${i}">Data!$A$1</definedName>`).join("");
  const terms = Array.from({ length: 1900 }, () => "A$1").join("+");
  const shared = Array.from(
    { length: 4000 },
    (_, i) => `<row r="${i + 1}"><c><f t="shared" si="0">${i === 0 ? terms : ""}</f><v>1</v></c></row>`,
  ).join("");
  it.each<readonly [string, () => Uint8Array, RegExp]>([
    [
      "more rules for colours than the page can bear",
      () =>
        beside(
          `<conditionalFormatting sqref="A1">${Array.from({ length: 3000 }, (_, i) => rule(i)).join("")}</conditionalFormatting>`,
        ),
      /“Data” has 3,000 areas with rules for colours; up to 1,000 are opened/,
    ],
    [
      "one rule for colours in many places",
      () => beside(`<conditionalFormatting sqref="${areas(1001)}">${rule(1)}</conditionalFormatting>`),
      /“Data” has 1,001 areas with rules for colours/,
    ],
    [
      "many rules for colours in the same cells",
      () =>
        beside(
          `<conditionalFormatting sqref="A1:Z150">${Array.from({ length: 600 }, (_, i) => rule(i)).join("")}</conditionalFormatting>`,
        ),
      /“Data” has 2,340,000 cells with rules for colours \(counted once for each rule\); up to 2,000,000 are opened/,
    ],
    [
      "more rules for entries than the page can bear",
      () =>
        beside(
          entryRules(...Array.from({ length: 20_000 }, (_, i) => entryRule(`${above} sqref="A${(i % 150) + 1}"`))),
        ),
      /“Data” has 20,000 areas with rules for what may be typed; up to 5,000 are opened/,
    ],
    [
      "a long formula that stands for thousands",
      () => changed({ [sheetPart]: rows(shared) }),
      /formulas of its sheet “Data” have more than 10,000,000 characters together/,
    ],
    [
      "many formulas that fill several cells",
      () =>
        changed({
          [sheetPart]: rows(
            Array.from(
              { length: 2001 },
              (_, i) => `<row r="${i + 1}"><c><f t="array" ref="A${i + 1}:B${i + 1}">C1:D1</f><v>1</v></c></row>`,
            ).join(""),
          ),
        }),
      /“Data” has 2,001 formulas that fill several cells; up to 2,000/,
    ],
    [
      "many joined cells",
      () =>
        beside(
          `<mergeCells>${Array.from({ length: 20_001 }, (_, i) => `<mergeCell ref="A${i + 1}:B${i + 1}"/>`).join("")}</mergeCells>`,
        ),
      /“Data” has 20,001 areas of joined cells; up to 20,000/,
    ],
    [
      "many names",
      () =>
        changed({
          "xl/workbook.xml": (text) => text.replace("<calcPr", `<definedNames>${names}</definedNames><calcPr`),
        }),
      /it has 50,001 names; up to 50,000/,
    ],
    [
      "a rule for no cells",
      () => beside(`<conditionalFormatting sqref="A0">${rule(1)}</conditionalFormatting>`),
      /it is damaged: “A0” is no cell/,
    ],
    ["a part named like the ground of all objects", () => changedWithProto(), /part __proto__/],
  ])("%s", (_, bytes, why) => {
    expect(reason(bytes())).toMatch(why);
  });

  it("a part that unpacks to more than is opened, before it is unpacked", () => {
    const bomb = zipSync({ ...unzipSync(plain), [sheetPart]: new Uint8Array(60e6) });
    expect(bomb.length).toBeLessThan(1e5);
    const before = process.memoryUsage().arrayBuffers;
    expect(reason(bomb)).toMatch(/unpacks to more than 48 MB \(part xl\/worksheets\/sheet1\.xml\)/);
    expect(process.memoryUsage().arrayBuffers - before).toBeLessThan(20e6);
  });

  it("many parts that together unpack to too much", () => {
    const many = Object.fromEntries(
      Array.from({ length: 5 }, (_, i) => [`xl/media/image${i}.png`, new Uint8Array(40e6)]),
    );
    expect(reason(zipSync({ ...unzipSync(plain), ...many }, { level: 1 }))).toMatch(/unpacks to more than 160 MB/);
  });

  it("a part that says it is small and is not", () => {
    const lying = zipSync({ ...unzipSync(plain), [sheetPart]: strToU8(`<worksheet>${" ".repeat(60e6)}</worksheet>`) });
    const size = new DataView(new ArrayBuffer(4));
    size.setUint32(0, 60e6 + 23, true);
    const [a, b, c, d] = [0, 1, 2, 3].map((i) => size.getUint8(i));
    for (let i = 0; i < lying.length - 4; i++)
      if (lying[i] === a && lying[i + 1] === b && lying[i + 2] === c && lying[i + 3] === d)
        lying.set([200, 0, 0, 0], i);
    expect(reason(lying)).toMatch(/damaged/);
  });
});

describe("what other programs write", () => {
  const read = (bytes: Uint8Array): OpenedFile => openWorkbook(bytes);
  const cells = (text: string) => read(changed({ [sheetPart]: rows(text) })).workbook.sheets[0]!.cells;

  it("a formula written once for several cells is read in each", () => {
    const found = cells(
      '<row r="1"><c r="B1"><f t="shared" ref="B1:B3" si="0">A1*$D$1+SUM(Data!A$1:A1)</f><v>1</v></c></row>' +
        '<row r="2"><c r="B2"><f t="shared" si="0"/><v>2</v></c></row><row r="3"><c r="C3"><f t="shared" si="0"/><v>3</v></c></row>',
    );
    expect(found.map(({ formula }) => formula)).toEqual([
      "=A1*$D$1+SUM(Data!A$1:A1)",
      "=A2*$D$1+SUM(Data!A$1:A2)",
      "=B3*$D$1+SUM(Data!B$1:B3)",
    ]);
  });

  it("functions under their stored names, in small letters too, and those of the add-in behind another workbook's mark", () => {
    const found = cells(
      '<row r="1"><c r="A1"><f>_xldudf_kern_friction_stress(0.3,0.2,0.003,&quot;1/m&quot;,1395,12)</f><v>1</v></c>' +
        '<c r="B1"><f>[2]!_xldudf_KERN_VERSION()</f><v>1</v></c>' +
        '<c r="C1"><f aca="false">IF(TRUE(),_xlfn.CONCAT(&quot;TRUE()&quot;),FALSE())</f><v>1</v></c>' +
        '<c r="D1" cm="1"><f t="array" ref="D1:D2">_xlfn._xlws.FILTER(A1:A3,_xlfn.LET(_xlpm.x,1,A1:A3&gt;_xlpm.x))</f><v>1</v></c></row>',
    );
    expect(found.map(({ formula }) => formula)).toEqual([
      '=KERN.FRICTION_STRESS(0.3,0.2,0.003,"1/m",1395,12)',
      "=KERN.VERSION()",
      '=IF(TRUE,CONCAT("TRUE()"),FALSE)',
      "=FILTER(A1:A3,LET(x,1,A1:A3>x))",
    ]);
    expect(found[3]!.fills).toEqual({ rows: 2, columns: 1 });
  });

  it("cells without addresses, texts within cells, and names with a prefix before every element", () => {
    const prefixed = changed({
      [sheetPart]: () =>
        '<x:worksheet xmlns:x="http://schemas.openxmlformats.org/spreadsheetml/2006/main"><x:sheetData><x:row>' +
        '<x:c t="inlineStr"><x:is><x:t>a</x:t></x:is></x:c><x:c><x:v>2</x:v></x:c></x:row><x:row><x:c t="b"><x:v>1</x:v></x:c></x:row>' +
        "</x:sheetData></x:worksheet>",
    });
    expect(read(prefixed).workbook.sheets[0]!.cells).toEqual([
      { row: 0, column: 0, value: "a", look: {} },
      { row: 0, column: 1, value: 2, look: {} },
      { row: 1, column: 0, value: true, look: {} },
    ]);
  });

  it("widths from before the first column on, and cells joined beyond those that are filled", () => {
    const opened = openWorkbook(
      changed({
        [sheetPart]: (xml) =>
          rows('<row r="1"><c r="A1"><v>1</v></c></row>')(xml)
            .replace(/<cols>.*<\/cols>/s, "")
            .replace("<sheetData>", '<cols><col min="-1e308" max="2" width="20"/></cols><sheetData>')
            .replace(
              "</sheetData>",
              '</sheetData><mergeCells><mergeCell ref="A1:Z1"/><mergeCell ref="A2:XFD1048576"/></mergeCells>',
            ),
      }),
    );
    const [only] = opened.workbook.sheets;
    expect([...only!.widths.keys()]).toEqual([0, 1]);
    expect(only!.columns).toBe(26);
    expect(only!.spans).toHaveLength(1);
    expect(opened.notUnderstood.join()).toContain("not joined");
  });

  it("rules reach a little beyond what is filled, whole columns and rows too", () => {
    const { workbook, notUnderstood } = read(
      changed({
        [sheetPart]: (xml) =>
          xml.replace(
            "</sheetData>",
            '</sheetData><conditionalFormatting sqref="A1:A1048576"><cfRule type="expression" priority="1">' +
              `<formula>A1&gt;0</formula></cfRule></conditionalFormatting>${entryRules(entryRule(`${above} sqref="A1:XFD1 A5000"`))}`,
          ),
      }),
    );
    const [only] = workbook.sheets;
    expect(only!.colours[0]!.areas).toEqual([{ row: 0, column: 0, rows: 201, columns: 1 }]);
    expect(only!.entries[0]!.areas).toEqual([{ row: 0, column: 0, rows: 1, columns: 201 }]);
    expect(notUnderstood).toEqual([
      "rules for whole rows or columns, or far beyond what is filled: kept as far as 200 cells beyond it (“Data”)",
    ]);
  });

  it("empty cells with a look far out are left out", () => {
    expect(cells('<row r="1"><c r="A1"><v>1</v></c></row><row r="1048576"><c r="A1048576" s="0"/></row>')).toHaveLength(
      1,
    );
  });

  it("what is not kept is listed, with where it was met", () => {
    const { notUnderstood } = read(
      changed({
        "xl/comments1.xml": "<comments/>",
        "xl/pivotTables/pivotTable1.xml": "<a/>",
        [sheetPart]: (text) =>
          text.replace(
            "</sheetData>",
            '</sheetData><sheetProtection sheet="1" password="ABCD"/><autoFilter ref="A1:B2"/>' +
              '<conditionalFormatting sqref="A1"><cfRule type="dataBar" priority="1"/></conditionalFormatting>',
          ),
      }),
    );
    expect(notUnderstood).toEqual([
      "filters: not kept, all rows are shown as the file has them (“Data”)",
      "passwords of protection: the protection is kept, without the password (“Data”)",
      "bars within cells: not kept (“Data”)",
      "pivot tables: the values are kept, not the tables",
      "notes and comments: not kept",
    ]);
  });
});

describe("what no program takes is changed or left out, said, and can be kept", () => {
  const half = "&#xD83D;";
  const withNames = (list: string) => (text: string) =>
    text.replace("<calcPr", `<definedNames>${list}</definedNames><calcPr`);
  const inCell = (inside: string): Uint8Array => changed({ [sheetPart]: rows(`<row r="1">${inside}</row>`) });
  const leftOut = /characters that no workbook file can keep: left out/;

  it.each<readonly [string, Uint8Array, RegExp]>([
    [
      "half a character in a sheet's name",
      changed({ "xl/workbook.xml": (t) => t.replace('name="Data"', `name="Da${half}ta"`) }),
      leftOut,
    ],
    ["half a character in a text", inCell(`<c t="str"><v>a${half}b</v></c>`), leftOut],
    ["half a character written as texts write it", inCell('<c t="str"><v>a_xD83D_b</v></c>'), leftOut],
    ["a character of zero written as texts write it", inCell('<c t="str"><v>a_x0000_b</v></c>'), leftOut],
    ["a character of zero", inCell('<c t="inlineStr"><is><t>a&#0;b</t></is></c>'), leftOut],
    ["a control character itself", inCell('<c t="str"><v>a\u0001b</v></c>'), leftOut],
    ["half a character in a formula", inCell(`<c><f>LEN("a${half}")</f><v>1</v></c>`), leftOut],
    [
      "half a character in a number format",
      changed({
        "xl/styles.xml": (t) =>
          t
            .replace(/<numFmts.*<\/numFmts>/s, "")
            .replace(
              /<fonts/,
              `<numFmts count="1"><numFmt numFmtId="200" formatCode="0&quot;${half}&quot;"/></numFmts><fonts`,
            )
            .replace(/<\/cellXfs>/, '<xf numFmtId="200"/></cellXfs>'),
        [sheetPart]: rows('<row r="1"><c s="1"><v>1</v></c><c s="2"><v>1</v></c><c s="3"><v>1</v></c></row>'),
      }),
      leftOut,
    ],
    [
      "half a character in a name",
      changed({ "xl/workbook.xml": withNames(`<definedName name="f${half}ar">Data!$A$1</definedName>`) }),
      leftOut,
    ],
    [
      "names that are none",
      changed({
        "xl/workbook.xml": withNames(
          ["a b", "A1", "", "1x", "x".repeat(256), "a!b"]
            .map((name) => `<definedName name="${name}">Data!$A$1</definedName>`)
            .join(""),
        ),
      }),
      /names that programs do not take: not kept \(“a b”, “A1”, “”, “1x” and 2 more\)/,
    ],
    [
      "a list of choices longer than programs take",
      changed({
        [sheetPart]: (t) =>
          t.replace(
            "</sheetData>",
            `</sheetData>${entryRules(entryRule('type="list" sqref="A1"', `"${"x".repeat(256)}"`))}`,
          ),
      }),
      /lists of choices longer than 255 characters: not kept \(“Data”\)/,
    ],
    [
      "errors that only some programs have",
      inCell('<c t="e"><f>NA()</f><v>#BUSY!</v></c><c t="e"><v>#BUSY!</v></c>'),
      /errors that only some programs have: shown as #VALUE!, or as a text \(“Data”\)/,
    ],
    ...["x".repeat(40), "a[b]", "a:b*c?d/e\\f", "'a", "a'", "History", " ", "a&#9;b"].map(
      (name) =>
        [
          `the sheet name ${name}`,
          changed({ "xl/workbook.xml": (t: string) => t.replace('name="Data"', `name="${name}"`) }),
          /names of sheets that programs do not take: changed \(“[^”]*” to “[^”]+”\)/s,
        ] as const,
    ),
  ])("%s", (_, bytes, said) => {
    const { workbook, notUnderstood } = openWorkbook(bytes);
    expect(notUnderstood.join("\n")).toMatch(said);
    const again = openWorkbook(writeBook(workbook));
    expect(again.notUnderstood).toEqual([]);
    expect(again.workbook.sheets.map(({ name, cells }) => [name, cells])).toEqual(
      workbook.sheets.map(({ name, cells }) => [name, cells]),
    );
  });

  it("a whole character in two halves stays", () => {
    const { workbook, notUnderstood } = openWorkbook(inCell('<c t="str"><v>&#xD83D;&#xDE00;_xD83D__xDE00_</v></c>'));
    expect(workbook.sheets[0]!.cells[0]!.value).toBe("\u{1F600}\u{1F600}");
    expect(notUnderstood).toEqual([]);
  });

  it("formulas, names and rules follow the new name of their sheet, and of two of one name mean the first", () => {
    const number = (value: number) => [{ row: 0, column: 0, value, look: {} }];
    const area = { row: 0, column: 0, rows: 1, columns: 1 };
    const bytes = writeBook({
      ...book(
        sheet({ name: "a/b", cells: number(1) }),
        sheet({ name: "Sums", cells: number(2) }),
        sheet({ name: "SUMS", cells: number(3) }),
        sheet({
          cells: [{ row: 0, column: 0, value: 1, formula: "='a/b'!A1+sums!A1+LEN(\"a/b!\")", look: {} }],
          entries: [
            {
              areas: [area],
              rule: { kind: "other", type: "list", formulas: ["='a/b'!$A$1:$A$2"] },
              allowBlank: true,
              otherwise: "refused",
            },
          ],
          colours: [{ areas: [area], when: { kind: "formula", formula: "='a/b'!A1>0" }, look: { bold: true } }],
        }),
      ),
      names: [{ name: "far", reference: "'a/b'!$A$1" }],
    });
    const { workbook } = openWorkbook(bytes);
    expect(workbook.sheets.map(({ name }) => name)).toEqual(["a b", "Sums", "SUMS 2", "Data"]);
    const { cells, entries, colours } = workbook.sheets[3]!;
    expect(cells[0]!.formula).toBe("='a b'!A1+sums!A1+LEN(\"a/b!\")");
    expect(entries[0]!.rule).toMatchObject({ formulas: ["='a b'!$A$1:$A$2"] });
    expect(colours[0]!.when).toMatchObject({ formula: "='a b'!A1>0" });
    expect(workbook.names).toEqual([{ name: "far", reference: "'a b'!$A$1" }]);
  });

  it("words that every object knows are no kinds of anything", () => {
    const { workbook, notUnderstood } = openWorkbook(
      changed({
        constructor: "x",
        "xl/styles.xml": (t) => t.replace(/<\/cellXfs>/, '<xf numFmtId="constructor"/></cellXfs>'),
        [sheetPart]: (t) =>
          t
            .replace(/<sheetData>.*<\/sheetData>/s, '<sheetData><row r="1"><c s="1"><v>1</v></c></row></sheetData>')
            .replace(
              "</sheetData>",
              "</sheetData><constructor><a/></constructor><toString><a/></toString>" +
                '<conditionalFormatting sqref="A1"><cfRule type="constructor" text="a" priority="1"><formula>1</formula>' +
                "</cfRule></conditionalFormatting>" +
                entryRules(
                  entryRule(
                    'type="whole" operator="constructor" errorStyle="toString" showErrorMessage="1" sqref="A1"',
                  ),
                ) +
                "<extLst><ext><constructor/></ext></extLst>",
            ),
      }),
    );
    expect(notUnderstood).toEqual(["colours by the rule “constructor”: not kept (“Data”)"]);
    expect(workbook.sheets[0]!.entries.map(({ otherwise }) => otherwise)).toEqual(["refused"]);
    expect(openWorkbook(writeBook(workbook)).workbook.sheets[0]!.cells).toHaveLength(1);
  });
});

/** Small pieces of files, each for itself: what of them is read, and what must be said of the rest. */
describe("a fragment reads back alike, or what is lost is said", () => {
  const run = (text: string, look = ""): string => `<r>${look && `<rPr>${look}</rPr>`}<t>${text}</t></r>`;
  const low = '<vertAlign val="subscript"/>';
  const high = '<vertAlign val="superscript"/>';
  const inline = (inside: string): Uint8Array =>
    changed({ [sheetPart]: rows(`<row r="1"><c r="A1" t="inlineStr"><is>${inside}</is></c></row>`) });
  const shared = (inside: string): Uint8Array =>
    changed({
      "xl/sharedStrings.xml": `<sst><si>${inside}</si></sst>`,
      [sheetPart]: rows('<row r="1"><c r="A1" t="s"><v>0</v></c></row>'),
    });
  const text = (value: string, ...lowered: readonly (readonly [number, number])[]) => ({
    cells: [{ row: 0, column: 0, value, look: {}, ...(lowered.length > 0 && { lowered }) }],
  });
  /** The cell of a sheet in a look of its own. */
  const styled = (xf: string, inside = "", styles: (text: string) => string = (t) => t): Uint8Array =>
    changed({
      "xl/styles.xml": (t) => styles(t).replace("</cellXfs>", `<xf ${xf}>${inside}</xf></cellXfs>`),
      [sheetPart]: rows('<row r="1"><c r="A1" s="1"><v>1</v></c></row>'),
    });
  const look = (said: BookSheet["cells"][number]["look"]) => ({ cells: [{ row: 0, column: 0, value: 1, look: said }] });
  const columns = (inside: string): Uint8Array =>
    changed({ [sheetPart]: (t) => t.replace("<sheetData>", `<cols>${inside}</cols><sheetData>`) });
  const ruled = (inside: string): Uint8Array =>
    changed({ [sheetPart]: (t) => t.replace("</sheetData>", `</sheetData>${inside}`) });
  const coloured = (rule: string, where = "A1"): Uint8Array =>
    ruled(`<conditionalFormatting sqref="${where}">${rule}</conditionalFormatting>`);
  const named = (attributes: string, reference = "Data!$A$1"): Uint8Array =>
    changed({
      "xl/workbook.xml": (t) =>
        t.replace(
          "<calcPr",
          `<definedNames><definedName ${attributes}>${reference}</definedName></definedNames><calcPr`,
        ),
    });
  const a1 = { row: 0, column: 0, rows: 1, columns: 1 };
  const beyond =
    "rules for whole rows or columns, or far beyond what is filled: kept as far as 200 cells beyond it (“Data”)";
  const mixed = "letters of different looks within a cell: the text is kept in one look (“Data”)";

  it.each<readonly [string, Uint8Array, Partial<BookSheet>, readonly string[]]>([
    ["a raised run", shared(run("x10") + run("6", high) + run(" mm")), text("x106 mm"), [mixed]],
    ["a raised run alone", shared(run("st", high)), text("st"), [mixed]],
    ["a raised run within a cell", inline(run("x10") + run("6", high) + run(" mm")), text("x106 mm"), [mixed]],
    ["a lowered and a raised run", shared(run("σ") + run("p", low) + run("2", high)), text("σp2", [1, 2]), [mixed]],
    ["a lowered run", shared(run("σ") + run("p0", low) + run(" =")), text("σp0 =", [1, 3]), []],
    ["a lowered run within a cell", inline(run("σ") + run("p0", low) + run(" =")), text("σp0 =", [1, 3]), []],
    ["a run that says it stands as others", shared(run("a", '<vertAlign val="baseline"/>') + run("b")), text("ab"), []],
    ["runs of two colours within a cell", inline(run("a", '<color rgb="FFFF0000"/>') + run("b")), text("ab"), [mixed]],
    ["runs of two sizes", shared(run("a", '<sz val="8"/>') + run("b", '<sz val="9"/>')), text("ab"), [mixed]],
    ["a bold run", shared(run("a") + run("b", "<b/>")), text("ab"), [mixed]],
    ["runs that look alike", shared(run("a", "<b/>") + run("b", "<b/>")), text("ab"), []],
    ["a plain text within a cell", inline('<t xml:space="preserve"> a </t>'), text(" a "), []],
    ["sounds beside a text", shared('<t>a</t><rPh sb="0" eb="1"><t>b</t></rPh>'), text("a"), []],
    [
      "characters left out before a lowered run",
      shared(run("a_x0000_") + run("b", low)),
      text("ab", [1, 2]),
      ["characters that no workbook file can keep: left out (“Data”)"],
    ],
    ["a centred cell", styled("", '<alignment horizontal="center"/>'), look({ align: "center" }), []],
    ["an indent", styled("", '<alignment horizontal="left" indent="2"/>'), look({ align: "left", indent: 2 }), []],
    [
      "lines in a cell",
      styled("", '<alignment vertical="top" wrapText="1"/>'),
      look({ vertical: "top", wrap: true }),
      [],
    ],
    ["a turned text", styled("", '<alignment textRotation="90"/>'), look({}), ["turned texts: shown level (“Data”)"]],
    ["a text that is not turned", styled("", '<alignment textRotation="0"/>'), look({}), []],
    [
      "a pattern behind a cell",
      styled('fillId="1" applyFill="1"'),
      look({}),
      ["patterns and gradients behind cells: not kept (“Data”)"],
    ],
    [
      "a slanting line",
      styled('borderId="1"', "", (t) =>
        t.replace("</borders>", '<border diagonalUp="1"><diagonal style="thin"/></border></borders>'),
      ),
      look({}),
      ["slanting lines in cells: not kept (“Data”)"],
    ],
    [
      "a cell of raised letters",
      styled('fontId="1"', "", (t) =>
        t.replace(
          "</fonts>",
          '<font><vertAlign val="superscript"/><sz val="8"/><color rgb="FF112233"/><name val="Arial"/></font></fonts>',
        ),
      ),
      look({ size: 8 }),
      ["cells whose letters are all raised or lowered: shown as others (“Data”)"],
    ],
    ["a width", columns('<col min="1" max="1" width="20.7109375"/>'), { widths: new Map([[0, { width: 20 }]]) }, []],
    [
      "a hidden column with its width",
      columns('<col min="2" max="2" width="20.7109375" hidden="1"/>'),
      { widths: new Map([[1, { width: 20, hidden: true as const }]]) },
      [],
    ],
    [
      "a hidden column without a width",
      columns('<col min="2" max="2" hidden="1"/>'),
      { widths: new Map([[1, { width: 12, hidden: true as const }]]) },
      [],
    ],
    ["a column about which nothing is said", columns('<col min="2" max="2"/>'), { widths: new Map() }, []],
    [
      "columns that fold away",
      columns('<col min="1" max="1" width="20.7109375" outlineLevel="1"/>'),
      { widths: new Map([[0, { width: 20 }]]) },
      ["groups of columns: not kept (“Data”)"],
    ],
    [
      "a double underline",
      styled('fontId="1"', "", (t) =>
        t.replace(
          "</fonts>",
          '<font><u val="double"/><sz val="8"/><color rgb="FF112233"/><name val="Arial"/></font></fonts>',
        ),
      ),
      look({ size: 8, underline: true }),
      ["double underlines: shown as single ones (“Data”)"],
    ],
    [
      "a condition of a column",
      coloured('<cfRule type="expression" dxfId="0" priority="1"><formula>A1&gt;2</formula></cfRule>', "A1:A1048576"),
      {
        colours: [
          {
            areas: [{ ...a1, rows: 201 }],
            when: { kind: "formula", formula: "=A1>2" },
            look: { color: "#14532d", background: "#dff3e4" },
          },
        ],
      },
      [beyond],
    ],
    [
      "a condition of cells nearby",
      coloured(
        '<cfRule type="cellIs" operator="between" dxfId="0" priority="1"><formula>1</formula><formula>2</formula></cfRule>',
        "A1:A150",
      ),
      {
        colours: [
          {
            areas: [{ ...a1, rows: 150 }],
            when: { kind: "number", operator: "between", formulas: ["1", "2"] },
            look: { color: "#14532d", background: "#dff3e4" },
          },
        ],
      },
      [],
    ],
    [
      "a colour scale of a column",
      coloured('<cfRule type="colorScale" priority="1"/>', "A1:A1048576"),
      { colours: [] },
      ["colour scales: not kept (“Data”)"],
    ],
    [
      "a rule for the entries of a row",
      ruled(entryRules(entryRule(`${above} sqref="A1:XFD1"`))),
      {
        entries: [
          {
            areas: [{ ...a1, columns: 201 }],
            rule: { kind: "number", above: 0, whole: true },
            allowBlank: false,
            otherwise: "taken",
          },
        ],
      },
      [beyond],
    ],
    [
      "a rule for dates",
      ruled(entryRules(entryRule('type="date" operator="lessThan" showErrorMessage="1" sqref="A1"', "45000"))),
      {
        entries: [
          {
            areas: [a1],
            rule: { kind: "other", type: "date", operator: "lessThan", formulas: ["=45000"] },
            allowBlank: false,
            otherwise: "refused",
          },
        ],
      },
      [],
    ],
    [
      "a name of a sheet",
      named('name="own" localSheetId="0"'),
      { names: [{ name: "own", reference: "Data!$A$1" }] },
      [],
    ],
    [
      "a name that programs keep for themselves",
      named('name="_xlnm._FilterDatabase" localSheetId="0"'),
      { names: [] },
      [],
    ],
    [
      "a name that is an address",
      named('name="AB12"'),
      { names: [] },
      ["names that programs do not take: not kept (“AB12”)"],
    ],
  ])("%s", (_, bytes, wanted, said) => {
    const { workbook, notUnderstood } = openWorkbook(bytes);
    expect(workbook.sheets[0]).toMatchObject(wanted);
    expect(workbook.sheets[0]!.cells[0]!.lowered).toEqual(wanted.cells?.[0]?.lowered);
    expect(notUnderstood).toEqual(said);
    const again = openWorkbook(writeBook(workbook));
    expect(again.notUnderstood).toEqual([]);
    expect(again.workbook.sheets).toEqual(workbook.sheets);
  });
});

describe("what a file keeps of a workbook", () => {
  const cell = { row: 0, column: 0, value: null, look: {} } as const;
  const letters = { font: "Arial", size: 10, color: "#1d2733" } as const;
  const full = book(
    sheet({
      name: "It's & mine",
      rows: 3,
      columns: 4,
      cells: [
        { ...cell, value: "=A1 stays a text", look: letters, unlocked: true },
        {
          ...cell,
          column: 1,
          value: "Data!B2",
          look: { ...letters, font: "Courier New", size: 14, bold: true, underline: true, strike: true },
        },
        {
          ...cell,
          column: 2,
          value: 0.125,
          look: {
            ...letters,
            format: "0.0%;[Red]-0.0%",
            background: "#ffeeaa",
            edges: { top: { line: "double", color: "#112233" }, left: { line: "hair" } },
            align: "center",
            vertical: "top",
            wrap: true,
          },
        },
        { ...cell, row: 1, value: 3, formula: "=LET(x,1,x+SUM(Data!A1:A2))" },
        { ...cell, row: 2, value: 5, formula: "=SEQUENCE(1,3,5)", fills: { rows: 1, columns: 3 } },
        { ...cell, row: 2, column: 1, value: 6 },
        { ...cell, row: 2, column: 2, value: 7 },
        { ...cell, row: 2, column: 3, value: null, formula: "=KERN.NO_SUCH()", error: "#NAME?" },
      ],
      spans: [{ row: 0, column: 2, rows: 1, columns: 2 }],
      widths: new Map([
        [0, { width: 20 }],
        [3, { width: 5, hidden: true as const }],
      ]),
      heights: new Map([[1, 30]]),
      hiddenRows: [2],
      freeze: { rows: 1, columns: 2 },
      gridlines: false,
      names: [{ name: "own", reference: "'It''s & mine'!$A$1:$B$2" }],
      entries: [
        {
          areas: [
            { row: 0, column: 0, rows: 2, columns: 1 },
            { row: 0, column: 3, rows: 1, columns: 1 },
          ],
          rule: { kind: "number", above: 0, max: 5 },
          allowBlank: true,
          otherwise: "asked",
          title: "Number",
          message: "0 to 5",
        },
        {
          areas: [{ row: 1, column: 1, rows: 1, columns: 1 }],
          rule: { kind: "other", type: "list", formulas: ["=Data!$A$1:$A$2"] },
          allowBlank: false,
          otherwise: "refused",
          prompt: { title: "Choose", message: "one of them" },
        },
        {
          areas: [{ row: 1, column: 2, rows: 1, columns: 1 }],
          rule: { kind: "other", type: "textLength", operator: "lessThan", formulas: ["=20"] },
          allowBlank: false,
          otherwise: "told",
        },
      ],
      colours: [
        {
          areas: [{ row: 0, column: 0, rows: 3, columns: 1 }],
          when: { kind: "number", operator: "between", formulas: ["1", "$B$1"] },
          look: { color: "#aa0000", bold: true },
          stop: true,
        },
        {
          areas: [{ row: 0, column: 1, rows: 1, columns: 1 }],
          when: { kind: "formula", formula: "=B1>MAX($A$1:$A$3)" },
          look: { background: "#00ff00" },
        },
        {
          areas: [{ row: 0, column: 1, rows: 2, columns: 1 }],
          when: { kind: "text", operator: "contains", text: 'say "no"' },
          look: { italic: true },
        },
      ],
      protected: true,
      print: { areas: [], orientation: "portrait", paper: 8, scale: 80, header: "&LMine", breaks: [2] },
    }),
    sheet({ name: "Data", hidden: true, cells: [{ ...cell, value: true }] }),
  );
  const whole: Workbook = {
    ...full,
    names: [{ name: "factor", reference: "1.35" }],
    properties: { title: "T", creator: "Kernbook" },
  };

  it("is read back as it was", () => {
    const { workbook, notUnderstood } = openWorkbook(writeBook(whole));
    expect(notUnderstood).toEqual([]);
    expect(workbook).toEqual(whole);
  });
});
