import type { Letters } from "../../sheet/index.ts";
import type { BookLook } from "../workbook/workbook.ts";
import { namespaceOfSheets, runFontXml } from "./styleSheet.ts";
import { element, part, textElement } from "./xml.ts";

/** In texts of a workbook `_x0041_` stands for a character; a text that looks so has its first `_` written that way. */
export function storedText(text: string): string {
  return text.replace(/_(?=x[0-9a-fA-F]{4}_)/g, "_x005F_").replace(/\r/g, "_x000D_");
}

export function readText(text: string): string {
  return text.replace(/_x([0-9a-fA-F]{4})_/g, (_, code: string) => String.fromCharCode(parseInt(code, 16)));
}

/** A text with subscripts, in runs that each name their letters: without that a program draws them in its own. */
function runsXml(text: string, lowered: readonly Letters[], look: BookLook): string {
  const edges = [0, ...lowered.flat(), text.length];
  return edges
    .slice(0, -1)
    .map((from, i) => {
      const piece = text.slice(from, edges[i + 1]);
      return piece === "" ? "" : element("r", {}, runFontXml(look, i % 2 === 1), textElement("t", storedText(piece)));
    })
    .join("");
}

/** The texts of a workbook, each once: cells name them by number. */
export class SharedTexts {
  private readonly indices = new Map<string, number>();
  private used = 0;

  index(text: string, lowered: readonly Letters[] = [], look: BookLook = {}): number {
    this.used++;
    const xml = lowered.length === 0 ? textElement("t", storedText(text)) : runsXml(text, lowered, look);
    const known = this.indices.get(xml) ?? this.indices.size;
    this.indices.set(xml, known);
    return known;
  }

  xml(): string {
    const items = [...this.indices.keys()].map((xml) => element("si", {}, xml));
    return part(
      element("sst", { xmlns: namespaceOfSheets, count: this.used, uniqueCount: this.indices.size }, ...items),
    );
  }
}
