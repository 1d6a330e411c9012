import { namespaceOfSheets } from "./styleSheet.ts";
import { element, part, textElement } from "./xml.ts";

/** In texts of a workbook `_x0041_` stands for a character; a text that looks so has its first `_` written that way. */
export function storedText(text: string): string {
  return text.replace(/_(?=x[0-9a-fA-F]{4}_)/g, "_x005F_").replace(/\r/g, "_x000D_");
}

export function readText(text: string): string {
  return text.replace(/_x([0-9a-fA-F]{4})_/g, (_, code: string) => String.fromCharCode(parseInt(code, 16)));
}

/** The texts of a workbook, each once: cells name them by number. */
export class SharedTexts {
  private readonly indices = new Map<string, number>();
  private used = 0;

  index(text: string): number {
    this.used++;
    const known = this.indices.get(text) ?? this.indices.size;
    this.indices.set(text, known);
    return known;
  }

  xml(): string {
    const items = [...this.indices.keys()].map((text) => element("si", {}, textElement("t", storedText(text))));
    return part(
      element("sst", { xmlns: namespaceOfSheets, count: this.used, uniqueCount: this.indices.size }, ...items),
    );
  }
}
