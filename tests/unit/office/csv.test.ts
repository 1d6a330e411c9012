import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { NotATable, readCsv, textOfBytes, writeCsv } from "../../../src/office/index.ts";
import { unguarded } from "../../../src/office/csv.ts";

const fieldsOf = (text: string): readonly (readonly string[])[] => readCsv(text).records.map(({ fields }) => fields);

// The examples and rules of RFC 4180, section 2, by their numbers there.
describe("tables by RFC 4180", () => {
  it("1, 2: records end with CRLF, the last one perhaps without", () => {
    expect(fieldsOf("aaa,bbb,ccc\r\nzzz,yyy,xxx\r\n")).toEqual([
      ["aaa", "bbb", "ccc"],
      ["zzz", "yyy", "xxx"],
    ]);
    expect(fieldsOf("aaa,bbb,ccc\r\nzzz,yyy,xxx")).toEqual([
      ["aaa", "bbb", "ccc"],
      ["zzz", "yyy", "xxx"],
    ]);
  });
  it("4: spaces belong to a field, and a comma at the end begins another", () => {
    expect(fieldsOf("a, b ,\r\n")).toEqual([["a", " b ", ""]]);
  });
  it("5: fields may be in quotation marks", () => {
    expect(fieldsOf('"aaa","bbb","ccc"\r\nzzz,yyy,xxx')).toEqual([
      ["aaa", "bbb", "ccc"],
      ["zzz", "yyy", "xxx"],
    ]);
    const [record] = readCsv('a,b"c,d\r\n').records;
    expect(record!.fault).toContain("quotation mark stands inside a field");
  });
  it("6: with line ends, quotation marks and commas in them; lines are counted on", () => {
    const { records } = readCsv('"aaa","b \r\nbb","c,c"\r\nzzz,yyy,xxx');
    expect(records).toEqual([
      { line: 1, fields: ["aaa", "b \r\nbb", "c,c"] },
      { line: 3, fields: ["zzz", "yyy", "xxx"] },
    ]);
  });
  it("7: a quotation mark in a field is doubled", () => {
    expect(fieldsOf('"aaa","b""bb","ccc"')).toEqual([["aaa", 'b"bb', "ccc"]]);
    expect(readCsv('"a"b,c').records[0]!.fault).toContain("follows a closing quotation mark");
  });
});

describe("what other programs write", () => {
  it("is read with a byte order mark, semicolons, tabs, sep=, LF, CR and empty lines", () => {
    expect(fieldsOf("\uFEFFmember;gs\nA;1,5\n\n;;\n")).toEqual([
      ["member", "gs"],
      ["A", "1,5"],
    ]);
    expect(fieldsOf("member\tgs\rA\t2\r")).toEqual([
      ["member", "gs"],
      ["A", "2"],
    ]);
    expect(readCsv("sep=;\r\na,b;c\r\n").records).toEqual([{ line: 2, fields: ["a,b", "c"] }]);
    expect(fieldsOf('"a;b",c\n1,2')).toEqual([
      ["a;b", "c"],
      ["1", "2"],
    ]);
  });
  it("is decoded from UTF-8 and UTF-16, and refused in anything else", () => {
    expect(textOfBytes(new TextEncoder().encode("µ"))).toBe("µ");
    expect(textOfBytes(new Uint8Array([0xff, 0xfe, 0xb5, 0x00]))).toBe("µ");
    expect(() => textOfBytes(new Uint8Array([0x61, 0xb5]))).toThrow("not in UTF-8");
    expect(() => textOfBytes(new Uint8Array([0x61, 0x00]))).toThrow("binary data");
  });
});

describe("what is no table", () => {
  const tooLarge: [text: string, reason: string][] = [
    [`member${",x".repeat(1_000_000)}\n`, "line 1 has more than 2000 columns"],
    [`member\n${"a\n".repeat(20_000)}`, "more than 5000 rows"],
    [`member\n"${"a".repeat(40_000)}`, "opened in line 2 is never closed"],
    [`member\n${"a".repeat(40_000)}\n`, "at most 32767"],
    [`a\n"${'""'.repeat(40_000)}"\n`, "at most 32767"],
  ];
  it("is refused with the line, however large", () => {
    for (const [text, reason] of tooLarge) {
      expect(() => readCsv(text)).toThrow(NotATable);
      expect(() => readCsv(text)).toThrow(reason);
    }
  });
  it("is refused quickly: in the best of five tries, in which the garbage of other tests is not collected", () => {
    const took = Array.from({ length: 5 }, () => {
      const began = performance.now();
      for (const [text] of tooLarge) expect(() => readCsv(text)).toThrow(NotATable);
      return performance.now() - began;
    });
    expect(Math.min(...took)).toBeLessThan(1000);
  });
});

describe("what is written", () => {
  it("is read back as it was, and no field begins as a formula does", () => {
    const field = fc.oneof(
      fc.string({ unit: "grapheme" }).filter((text) => !text.includes("\0")),
      fc.constantFrom(
        "=1+1",
        "+1",
        "-1",
        "@SUM(A1)",
        "'=1",
        "\t=1",
        "\r=1",
        "''-x",
        "＝1",
        '"',
        "a;b",
        " =1",
        "=cmd|'/c calc'!A0",
      ),
      fc.double({ noNaN: true, noDefaultInfinity: true }),
    );
    fc.assert(
      fc.property(fc.array(fc.tuple(field, field), { minLength: 1, maxLength: 8 }), (rows) => {
        const named = rows.map(([a, b], i) => [`m${i}`, a, b]);
        const { separator, records } = readCsv(writeCsv([["member", "a", "b"], ...named]));
        expect(separator).toBe(",");
        expect(records.slice(1).map(({ fields }) => fields.map(unguarded))).toEqual(
          named.map((row) => row.map((one) => String(one))),
        );
        named.forEach((row, i) => {
          row.forEach((one, c) => {
            if (typeof one === "string") expect(records[i + 1]!.fields[c]).not.toMatch(/^[=+\-@\t\r＝＋－＠]/);
          });
        });
      }),
      { numRuns: 300 },
    );
  });
});
