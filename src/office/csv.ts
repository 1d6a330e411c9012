/**
 * Tables as text, by RFC 4180: fields apart by commas, records by line ends, a field in quotation marks where it holds
 * either, a quotation mark in it doubled. Other programs write semicolons or tabs, a byte order mark and `sep=;`.
 */

export type Separator = "," | ";" | "\t";

export interface CsvRecord {
  /** The line of the file where it begins, from 1. */
  readonly line: number;
  readonly fields: readonly string[];
  /** Why its fields cannot be told apart. */
  readonly fault?: string;
}

/** No table of members is larger: what is, is something else. */
export const csvLimits = { fields: 2_000, records: 5_001, characters: 32_767 } as const;

/** A text that is no table of members; the message says why. */
export class NotATable extends Error {
  override readonly name = "NotATable";
}

/** The text of a file: UTF-8, or UTF-16 with its mark. Throws NotATable. */
export function textOfBytes(bytes: Uint8Array): string {
  const marks: readonly (readonly [string, number, number])[] = [
    ["utf-16le", 0xff, 0xfe],
    ["utf-16be", 0xfe, 0xff],
  ];
  const encoding = marks.find(([, first, second]) => bytes[0] === first && bytes[1] === second)?.[0] ?? "utf-8";
  let text: string;
  try {
    text = new TextDecoder(encoding, { fatal: true }).decode(bytes);
  } catch (error) {
    throw new NotATable("the file is not in UTF-8; save it as “CSV UTF-8” and try again", { cause: error });
  }
  if (text.includes("\0")) throw new NotATable("the file holds binary data, no table; save it as “CSV UTF-8”");
  return text;
}

const declared = /^sep=([,;\t])\r?\n/i;

/** What separates the fields: as the file says in its first line, else what stands there most often outside quotation marks. */
function separatorOf(text: string): Separator {
  const said = declared.exec(text)?.[1];
  if (said !== undefined) return said as Separator;
  const counts = { ",": 0, ";": 0, "\t": 0 };
  let quoted = false;
  for (const character of text.slice(0, 100_000)) {
    if (character === '"') quoted = !quoted;
    if (quoted) continue;
    if (character === "\n" || character === "\r") break;
    if (character in counts) counts[character as Separator]++;
  }
  if (counts[";"] > counts[","] && counts[";"] >= counts["\t"]) return ";";
  return counts["\t"] > counts[","] ? "\t" : ",";
}

/** Reads one record after another, so that nothing larger than a record is held. */
class Reader {
  #at: number;
  #line: number;

  constructor(
    private readonly text: string,
    private readonly separator: Separator,
  ) {
    this.#at = declared.exec(text)?.[0].length ?? 0;
    this.#line = this.#at > 0 ? 2 : 1;
  }

  next(): CsvRecord | undefined {
    if (this.#at >= this.text.length) return undefined;
    const line = this.#line;
    const fields: string[] = [];
    let fault: string | undefined;
    for (;;) {
      const field = this.#field();
      fault ??= field.fault;
      fields.push(field.text);
      if (fields.length > csvLimits.fields)
        throw new NotATable(`line ${line} has more than ${csvLimits.fields} columns; a table of members needs fewer`);
      if (this.text[this.#at] !== this.separator) break;
      this.#at++;
    }
    this.#lineEnd();
    return { line, fields, ...(fault !== undefined && { fault }) };
  }

  #lineEnd(): void {
    if (this.text[this.#at] === "\r") this.#at++;
    if (this.text[this.#at] === "\n") this.#at++;
    this.#line++;
  }

  #isEnd(): boolean {
    const character = this.text[this.#at];
    return character === undefined || character === this.separator || character === "\n" || character === "\r";
  }

  /** The characters up to the next separator or line end. */
  #plain(): string {
    const from = this.#at;
    while (!this.#isEnd()) this.#at++;
    return this.#checked(this.text.slice(from, this.#at));
  }

  #field(): { readonly text: string; readonly fault?: string } {
    if (this.text[this.#at] !== '"') {
      const text = this.#plain();
      return text.includes('"')
        ? {
            text,
            fault: "a quotation mark stands inside a field; put the whole field in quotation marks and double it",
          }
        : { text };
    }
    const opened = this.#line;
    const parts: string[] = [];
    this.#at++;
    for (;;) {
      const close = this.text.indexOf('"', this.#at);
      if (close < 0) throw new NotATable(`the quotation mark opened in line ${opened} is never closed`);
      const part = this.#checked(this.text.slice(this.#at, close));
      this.#line += part.split("\n").length - 1;
      parts.push(part);
      this.#at = close + 1;
      if (this.text[this.#at] !== '"') break;
      parts.push('"');
      this.#at++;
    }
    const text = this.#checked(parts.join(""));
    if (this.#isEnd()) return { text };
    return { text: text + this.#plain(), fault: "text follows a closing quotation mark before the next separator" };
  }

  #checked(text: string): string {
    if (text.length <= csvLimits.characters) return text;
    throw new NotATable(
      `a field of line ${this.#line} has ${text.length} characters; at most ${csvLimits.characters} are allowed ` +
        "(is a quotation mark not closed?)",
    );
  }
}

/** The records of a text that hold something. Throws NotATable where it is none, or too large. */
export function readCsv(text: string): { readonly separator: Separator; readonly records: readonly CsvRecord[] } {
  const plain = text.replace(/^\uFEFF/, "");
  const separator = separatorOf(plain);
  const reader = new Reader(plain, separator);
  const records: CsvRecord[] = [];
  for (let record = reader.next(); record; record = reader.next()) {
    if (record.fields.every((field) => field.trim() === "")) continue;
    if (records.length === csvLimits.records)
      throw new NotATable(`the table has more than ${csvLimits.records - 1} rows; split it`);
    records.push(record);
  }
  return { separator, records };
}

/** A spreadsheet program would take such a text for a formula, or drop the character that hides one. */
const begins = /^[=+\-@\t\r\n＝＋－＠]/;
/** A text that was given an apostrophe. */
const made = /^'+[=+\-@\t\r\n＝＋－＠]/;

/** A field as text that no program takes for a formula; apostrophes there already stay distinct from the one put before. */
function fieldOf(value: string | number | null): string {
  if (value === null) return "";
  if (typeof value === "number") return String(value);
  const safe = begins.test(value) || made.test(value) ? `'${value}` : value;
  return /[",;\t\r\n]|^\s|\s$/.test(safe) ? `"${safe.replaceAll('"', '""')}"` : safe;
}

/** Takes the apostrophe off that `writeCsv` put before a text. */
export function unguarded(field: string): string {
  return made.test(field) ? field.slice(1) : field;
}

/** Rows as a file that spreadsheet programs read as UTF-8, with no field that they would compute. */
export function writeCsv(rows: readonly (readonly (string | number | null)[])[]): string {
  return `\uFEFF${rows.map((row) => `${row.map(fieldOf).join(",")}\r\n`).join("")}`;
}
