import { strFromU8, unzipSync } from "fflate";
import { relationTypes } from "./package.ts";
import { all, readXml, type Element } from "./readXml.ts";
import { CannotOpen, checkSize, limits as foreignLimits, megabytes, type Limits } from "./refusal.ts";

export interface ReadRelation {
  readonly type: string;
  /** The part's full name; of what lies outside the file, its address. */
  readonly target: string;
}

/** "xl/worksheets/sheet1.xml" and "../drawings/drawing1.xml" give "xl/drawings/drawing1.xml". */
function resolved(from: string, target: string): string {
  const path = target.startsWith("/") ? [] : from.split("/").slice(0, -1);
  for (const step of target.split("/")) {
    if (step === "..") path.pop();
    else if (step !== "" && step !== ".") path.push(step);
  }
  return path.join("/");
}

const begins = (bytes: Uint8Array, ...with_: readonly number[]): boolean => with_.every((b, i) => bytes[i] === b);

/** What a file is not, by its first bytes. */
function refuseOtherKinds(bytes: Uint8Array, limits: Limits): void {
  if (bytes.length === 0) throw new CannotOpen("it is empty");
  if (begins(bytes, 0xd0, 0xcf, 0x11, 0xe0))
    throw new CannotOpen(
      "it is protected by a password or of the old kind .xls; open it in the program that made it and save it as .xlsx without a password",
    );
  if (!begins(bytes, 0x50, 0x4b)) throw new CannotOpen("it is no .xlsx workbook");
  checkSize(bytes.length, limits);
}

/**
 * Unpacks no more than the limits allow: sizes are looked at before anything is unpacked, and a part that says less than it holds ends
 * where it said.
 */
function unpacked(bytes: Uint8Array, limits: Limits): ReadonlyMap<string, Uint8Array> {
  refuseOtherKinds(bytes, limits);
  let size = 0;
  const names = new Set<string>();
  const filter = ({ name, originalSize }: { readonly name: string; readonly originalSize: number }): boolean => {
    if (names.has(name)) throw new CannotOpen(`it holds the part ${name} twice`);
    names.add(name);
    // The unpacked parts come as properties of an object: one of this name would become what all others fall back to.
    if (name === "__proto__") throw new CannotOpen(`it holds a part ${name}, which no workbook has`);
    size += originalSize;
    if (names.size > limits.parts)
      throw new CannotOpen(`it has more than ${limits.parts.toLocaleString("en-GB")} parts; no workbook needs as many`);
    if (originalSize > limits.part || size > limits.unpacked)
      throw new CannotOpen(
        `it unpacks to more than ${megabytes(originalSize > limits.part ? limits.part : limits.unpacked)} ` +
          `(part ${name}); a workbook of that size is not opened here`,
      );
    return true;
  };
  try {
    return new Map(Object.entries(unzipSync(bytes, { filter })));
  } catch (error) {
    if (error instanceof CannotOpen) throw error;
    throw new CannotOpen("it is damaged or was cut short: it cannot be unpacked");
  }
}

/** Some programs put the sheets' namespace before every name. */
function withoutPrefix(root: Element): Element {
  const colon = root.name.indexOf(":");
  const prefix = root.name.slice(0, colon + 1);
  if (!/^(worksheet|workbook|styleSheet|sst)$/.test(root.name.slice(colon + 1)) || prefix === "") return root;
  const bare = (one: Element): Element => ({
    ...one,
    name: one.name.startsWith(prefix) ? one.name.slice(prefix.length) : one.name,
    children: one.children.map(bare),
  });
  return bare(root);
}

/** The parts of a workbook file. */
export class ReadPackage {
  private readonly files: ReadonlyMap<string, Uint8Array>;

  /** @param leftOut told when a part held characters that no workbook keeps and that were left out */
  constructor(
    bytes: Uint8Array,
    limits: Limits = foreignLimits,
    private readonly leftOut: () => void = () => undefined,
  ) {
    this.files = unpacked(bytes, limits);
  }

  get names(): readonly string[] {
    return [...this.files.keys()];
  }

  has(name: string): boolean {
    return this.files.has(name);
  }

  bytes(name: string): Uint8Array {
    const bytes = this.files.get(name);
    if (!bytes) throw new CannotOpen(`it is damaged: it has no part ${name}`);
    return bytes;
  }

  text(name: string): string {
    return strFromU8(this.bytes(name)).replace(/^\uFEFF/, "");
  }

  xml(name: string): Element {
    const text = this.text(name);
    if (text.includes("<!DOCTYPE") || text.includes("<!ENTITY"))
      throw new CannotOpen(`its part ${name} declares a document type or entities, which no workbook needs`);
    try {
      return withoutPrefix(readXml(text, this.leftOut));
    } catch (error) {
      throw new CannotOpen(`it is damaged: ${name} cannot be read (${(error as Error).message})`);
    }
  }

  /** What a part refers to, by relation id; of the file itself where no part is named. */
  relations(of = ""): ReadonlyMap<string, ReadRelation> {
    const cut = of.lastIndexOf("/") + 1;
    const name = `${of.slice(0, cut)}_rels/${of.slice(cut)}.rels`;
    if (!this.has(name)) return new Map();
    return new Map(
      all(this.xml(name), "Relationship").map(({ attributes: { Id = "", Type = "", Target = "", TargetMode } }) => [
        Id,
        // The stricter form of the format names the same relations otherwise.
        {
          type: Type.replace("http://purl.oclc.org/ooxml/", "http://schemas.openxmlformats.org/").replace(
            "/officeDocument/relationships/",
            "/officeDocument/2006/relationships/",
          ),
          target: TargetMode === "External" ? Target : resolved(of, Target),
        },
      ]),
    );
  }

  /** The parts a part refers to in that way. */
  referred(of: string, kind: keyof typeof relationTypes): readonly string[] {
    return [...this.relations(of).values()].flatMap(({ type, target }) =>
      type === relationTypes[kind] ? [target] : [],
    );
  }

  /** The one part a part refers to in that way. */
  only(of: string, kind: keyof typeof relationTypes): string {
    const [first] = this.referred(of, kind);
    if (first === undefined)
      throw new CannotOpen(of === "" ? "it is no .xlsx workbook" : `it is damaged: ${of} names no ${kind}`);
    return first;
  }
}
