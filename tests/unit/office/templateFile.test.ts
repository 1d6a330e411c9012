import { describe, expect, it } from "vitest";
import {
  indexOf,
  readIndex,
  readIndexed,
  readTemplate,
  Refused,
  sha256Of,
  templateText,
} from "../../../src/office/index.ts";
import { templates } from "../../../src/templates/index.ts";
import { small } from "./smallTemplate.ts";

type File = typeof small & Record<string, unknown>;
const copy = (change: (file: File) => void): string => {
  const file = structuredClone(small) as File;
  change(file);
  return JSON.stringify(file);
};
async function reasons(text: string | Uint8Array): Promise<string> {
  try {
    await readTemplate(text);
  } catch (error) {
    if (error instanceof Refused) return error.messages.join("\n");
    throw error;
  }
  return "taken";
}
const item = (file: File, block: number, at: number): Record<string, unknown> =>
  file.blocks[block]!.items[at] as unknown as Record<string, unknown>;

describe("a template's file", () => {
  it("is read, with the hash of its text", async () => {
    const text = JSON.stringify(small);
    const read = await readTemplate(text);
    expect(read.template.id).toBe("small-check");
    expect(read.sha256).toBe(await sha256Of(text));
    // SHA-256 of "abc", FIPS 180-4.
    expect(await sha256Of("abc")).toBe("ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad");
  });

  it.each<readonly [string, (file: File) => void, RegExp]>([
    ["a function that is not allowed", (f) => (item(f, 0, 1).formula = '=WEBSERVICE("x")'), /WEBSERVICE is not among/],
    ["a link", (f) => (item(f, 0, 1).formula = '=HYPERLINK("http://example.org","x")'), /HYPERLINK is not among/],
    ["INDIRECT", (f) => (item(f, 1, 0).verdict = '=INDIRECT("A1")'), /INDIRECT is not among/],
    ["an address", (f) => (item(f, 0, 1).formula = "=Sheet2!A1"), /Sheet2!A1 is an address/],
    ["another workbook", (f) => (item(f, 0, 1).formula = "='[a.xlsx]S'!A1"), /is an address or a name/],
    [
      "a formula of another configuration",
      (f) => {
        f.shape = [
          {
            id: "kind",
            text: "kind",
            symbol: "–",
            default: "A",
            choices: [
              { value: "A", text: "a" },
              { value: "B", text: "b" },
            ],
          },
        ] as never;
        f.blocks[0]!.items.push({ id: "b", text: "b", unit: "–", when: { kind: "B" }, formula: "=RAND()" } as never);
      },
      /RAND is not among/,
    ],
    ["a server in a text", (f) => (item(f, 0, 0).text = "see https://example.org/x"), /holds the address/],
    ["a shared folder", (f) => (f.title = "\\\\server\\share"), /holds the address/],
    [
      "a name of the language",
      (f) => (f.example.inputs = JSON.parse('{"__proto__": 1}') as never),
      /__proto__ is not allowed/,
    ],
    ["a name of the program", (f) => (item(f, 0, 0).id = "functionsVersion"), /is a name of the program/],
    ["two rows of one id", (f) => (item(f, 0, 1).id = "f"), /differ only in upper and lower case/],
    ["the id of a shipped one", (f) => (f.id = templates[0]!.id), /that of a shipped template/],
    ["no office", (f) => delete (f as Record<string, unknown>).office, /does not say the office/],
    ["what the schema does not know", (f) => (f.macro = "x"), /macro: is not known here/],
    ["a missing row", (f) => (item(f, 1, 0).formula = "={F}/{Gmax}"), /\{Gmax\} is not the id/],
    [
      "too many members",
      (f) => (f.dimensions = { d: { size: 5_000_000, label: "d" } } as never),
      /has up to 5000000 members/,
    ],
    [
      "too long a count",
      (f) => {
        f.shape = [{ id: "n", text: "n", symbol: "n", default: 1, min: 1, max: 1_000_000 }] as never;
      },
      /goes up to 1000000/,
    ],
    ["a hidden format", (f) => (item(f, 0, 1).format = ";;;"), /format/],
    ["a part that nothing has", (f) => f.blocks.push({ use: "no-such-part" } as never), /no shared part no-such-part/],
  ])("is refused for %s", async (_, change, why) => {
    expect(await reasons(copy(change))).toMatch(why);
  });

  it("is refused as a workbook, as no JSON, and as too large", async () => {
    expect(await reasons(new Uint8Array([0x50, 0x4b, 3, 4]))).toMatch(/may hold macros/);
    expect(await reasons("{")).toMatch(/no JSON/);
    expect(await reasons(" ".repeat(3_000_001))).toMatch(/at most 3000000/);
  });

  it("may hold shared parts and blocks of a shipped template", async () => {
    const post = templates[0]!;
    const revisions = post.blocks.find(({ items }) =>
      items.every((one) => "table" in one && one.columns.every((c) => c.record)),
    )!;
    const text = copy((file) => {
      file.dimensions = { revisionLine: post.dimensions.revisionLine };
      file.blocks.push({ use: `${post.id}#${revisions.id}` } as never);
    });
    const { template } = await readTemplate(text);
    expect(template.blocks.at(-1)).toEqual(revisions);
    expect(templateText(template)).not.toContain('"use"');
  });
});

describe("the index of a folder", () => {
  it("lists files that fit their hash, and refuses others", async () => {
    const text = JSON.stringify(small);
    const of = await readTemplate(text);
    const index = readIndex(JSON.stringify(indexOf([{ file: "small.json", of }])));
    const [entry] = index.templates;
    expect(entry).toMatchObject({ file: "small.json", id: "small-check", version: "1.0.0" });
    expect((await readIndexed(entry!, text)).template.id).toBe("small-check");
    await expect(readIndexed(entry!, `${text} `)).rejects.toThrow(/not the file of the index/);
    await expect(readIndexed({ ...entry!, version: "2.0.0" }, text)).rejects.toThrow(/the index says/);
    expect(() => readIndex(JSON.stringify({ ...index, templates: [{ ...entry, file: "../x.json" }] }))).toThrow(
      /no file/,
    );
    expect(() => readIndex(JSON.stringify({ ...index, templates: [entry, null] }))).toThrow(/entry 2 names no file/);
    expect(() =>
      indexOf([
        { file: "a.json", of },
        { file: "b.json", of },
      ]),
    ).toThrow(/same id/);
  });
});
