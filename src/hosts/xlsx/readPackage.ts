import { strFromU8, unzipSync } from "fflate";
import { relationTypes } from "./package.ts";
import { all, readXml, type Element } from "./readXml.ts";

export interface ReadRelation {
  readonly type: string;
  /** The part's full name. */
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

/** The parts of a workbook file. */
export class ReadPackage {
  private readonly files: Readonly<Record<string, Uint8Array>>;

  constructor(bytes: Uint8Array) {
    this.files = unzipSync(bytes);
  }

  get names(): readonly string[] {
    return Object.keys(this.files);
  }

  text(name: string): string {
    const bytes = this.files[name];
    if (!bytes) throw new Error(`the file has no part ${name}`);
    return strFromU8(bytes);
  }

  xml(name: string): Element {
    return readXml(this.text(name));
  }

  /** What a part refers to, by relation id; of the file itself where no part is named. */
  relations(of = ""): ReadonlyMap<string, ReadRelation> {
    const cut = of.lastIndexOf("/") + 1;
    const name = `${of.slice(0, cut)}_rels/${of.slice(cut)}.rels`;
    if (!this.files[name]) return new Map();
    return new Map(
      all(this.xml(name), "Relationship").map(({ attributes }) => [
        attributes["Id"]!,
        { type: attributes["Type"]!, target: resolved(of, attributes["Target"]!) },
      ]),
    );
  }

  /** The one part a part refers to in that way. */
  only(of: string, kind: keyof typeof relationTypes): string {
    const found = [...this.relations(of).values()].filter(({ type }) => type === relationTypes[kind]);
    if (found.length !== 1)
      throw new Error(`${of || "the file"} refers to ${found.length} parts as its ${kind}; one is needed`);
    return found[0]!.target;
  }
}
