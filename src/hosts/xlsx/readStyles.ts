import { defaultStyle, tones, type CellStyle } from "../look/styles.ts";
import { all, at, child, type Element } from "./readXml.ts";
import { argb } from "./styleSheet.ts";

/** A cell's look as read; size and colour are always there. */
export interface ReadLook {
  readonly style: CellStyle;
  readonly format?: string;
  readonly locked: boolean;
}

export interface ReadStyles {
  readonly looks: readonly ReadLook[];
  /** The tones of the conditional looks, in their order. */
  readonly tones: readonly (keyof typeof tones)[];
}

/** `#rrggbb` from a colour element. */
function colorOf(of: Element | undefined): string | undefined {
  const rgb = of?.attributes["rgb"];
  return rgb === undefined ? undefined : `#${rgb.slice(2).toLowerCase()}`;
}

function fontOf(font: Element): CellStyle {
  return {
    size: Number(child(font, "sz")?.attributes["val"] ?? defaultStyle.size),
    color: colorOf(child(font, "color")) ?? defaultStyle.color!,
    ...(child(font, "b") && { bold: true as const }),
    ...(child(font, "i") && { italic: true as const }),
  };
}

function backgroundOf(fill: Element): string | undefined {
  const pattern = child(fill, "patternFill");
  return pattern?.attributes["patternType"] === "solid" ? colorOf(child(pattern, "fgColor")) : undefined;
}

function borderOf(border: Element): CellStyle["border"] {
  const lined = ["left", "right", "top", "bottom"].filter(
    (side) => child(border, side)?.attributes["style"] !== undefined,
  );
  if (lined.length === 0) return undefined;
  const sides = lined.length === 4 ? "all" : lined[0] === "top" ? "above" : "below";
  const side = at(border, lined[0]!);
  return {
    sides,
    line: side.attributes["style"] as NonNullable<CellStyle["border"]>["line"],
    color: colorOf(child(side, "color"))!,
  };
}

function toneOf(dxf: Element): keyof typeof tones {
  const color = at(dxf, "font", "color").attributes["rgb"];
  const found = (Object.keys(tones) as (keyof typeof tones)[]).find((tone) => argb(tones[tone].color) === color);
  if (!found) throw new Error(`the conditional colour ${color} is none of ours`);
  return found;
}

/** Reads the style part. */
export function readStyles(root: Element): ReadStyles {
  const formats = new Map(
    all(child(root, "numFmts"), "numFmt").map((one) => [one.attributes["numFmtId"], one.attributes["formatCode"]!]),
  );
  const fonts = at(root, "fonts").children.map(fontOf);
  const fills = at(root, "fills").children.map(backgroundOf);
  const borders = at(root, "borders").children.map(borderOf);
  const looks = at(root, "cellXfs").children.map((xf): ReadLook => {
    const { fontId, fillId, borderId, numFmtId } = xf.attributes;
    const alignment = child(xf, "alignment")?.attributes ?? {};
    const background = fills[Number(fillId)];
    const border = borders[Number(borderId)];
    const format = formats.get(numFmtId);
    const style: CellStyle = {
      ...fonts[Number(fontId)]!,
      ...(background && { background }),
      ...(border && { border }),
      ...(alignment["horizontal"] && { align: alignment["horizontal"] as NonNullable<CellStyle["align"]> }),
      ...(alignment["wrapText"] === "1" && { wrap: true as const }),
      ...(alignment["shrinkToFit"] === "1" && { shrink: true as const }),
    };
    return {
      style,
      ...(format !== undefined && { format }),
      locked: child(xf, "protection")?.attributes["locked"] !== "0",
    };
  });
  return { looks, tones: all(child(root, "dxfs"), "dxf").map(toneOf) };
}
