import type { Address } from "../../cells/index.ts";
import type { CellValue } from "../host/host.ts";
import { readAddress } from "./address.ts";
import type { ReadLook } from "./readStyles.ts";
import { all, at, child, type Element } from "./readXml.ts";
import { readText } from "./sharedTexts.ts";
import { typedFormula } from "./storedFormula.ts";

/** A cell of a file: `value` as kept, of a formula the one last computed; null where there is none. */
export interface ReadCell extends Address, ReadLook {
  readonly value: CellValue;
  /** As typed, with `=`. */
  readonly formula?: string;
  readonly error?: string;
}

export function readSharedTexts(root: Element): readonly string[] {
  return all(root, "si").map((si) =>
    readText(
      child(si, "t")?.text ??
        all(si, "r")
          .map((run) => child(run, "t")?.text ?? "")
          .join(""),
    ),
  );
}

function valueOf(c: Element, texts: readonly string[]): Pick<ReadCell, "value" | "error"> {
  const v = child(c, "v")?.text;
  if (v === undefined) return { value: null };
  switch (c.attributes["t"]) {
    case "s":
      return { value: texts[Number(v)]! };
    case "str":
      return { value: readText(v) };
    case "b":
      return { value: v === "1" };
    case "e":
      return { value: null, error: v };
    case undefined:
    case "n":
      return { value: Number(v) };
    default:
      throw new Error(`the cell ${c.attributes["r"]} is of an unknown type: ${c.attributes["t"]}`);
  }
}

/** Every cell that stands in the sheet. */
export function readSheetCells(
  sheet: Element,
  looks: readonly ReadLook[],
  texts: readonly string[],
): readonly ReadCell[] {
  return all(at(sheet, "sheetData"), "row").flatMap((row) =>
    all(row, "c").map((c): ReadCell => {
      const f = child(c, "f");
      if (f && Object.keys(f.attributes).length > 0)
        throw new Error(`the formula of ${c.attributes["r"]} is an array or shared formula`);
      return {
        ...readAddress(c.attributes["r"]!),
        ...looks[Number(c.attributes["s"] ?? 0)]!,
        ...valueOf(c, texts),
        ...(f && { formula: typedFormula(f.text) }),
      };
    }),
  );
}
