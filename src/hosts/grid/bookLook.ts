import type { IBorderStyleData, IStyleData, Nullable } from "@univerjs/core";
import { sides, type BookLook, type Edge, type Side } from "../workbook/workbook.ts";
import type { GridRuntime } from "./runtime.ts";

type Core = GridRuntime["core"];
/** The grid hands on what it does not know of a style; so numbers that are drawn smaller in other programs stay so. */
export type GridStyle = IStyleData & { readonly shrink?: true };

const sideKeys = { left: "l", right: "r", top: "t", bottom: "b" } as const;
const lines = [
  ["thin", "THIN"],
  ["hair", "HAIR"],
  ["dotted", "DOTTED"],
  ["dashed", "DASHED"],
  ["dashDot", "DASH_DOT"],
  ["dashDotDot", "DASH_DOT_DOT"],
  ["double", "DOUBLE"],
  ["medium", "MEDIUM"],
  ["mediumDashed", "MEDIUM_DASHED"],
  ["mediumDashDot", "MEDIUM_DASH_DOT"],
  ["mediumDashDotDot", "MEDIUM_DASH_DOT_DOT"],
  ["slantDashDot", "SLANT_DASH_DOT"],
  ["thick", "THICK"],
] as const;
const across = [
  ["left", "LEFT"],
  ["center", "CENTER"],
  ["right", "RIGHT"],
  ["justify", "JUSTIFIED"],
] as const;
const upright = [
  ["top", "TOP"],
  ["center", "MIDDLE"],
  ["bottom", "BOTTOM"],
] as const;
const black = "#000000";
/** Of a step of indentation. */
const indentPixels = 7;

/** `#rrggbb` in small letters of a colour as the grid keeps it: `#fff`, `#FFFFFF`, `rgb(255, 255, 255)`. */
function plainColour(written: Nullable<string>): string | undefined {
  if (!written) return undefined;
  const numbers = /^rgba?\(\s*(\d+)\s*,\s*(\d+)\s*,\s*(\d+)/.exec(written)?.slice(1, 4);
  if (numbers) return `#${numbers.map((n) => Number(n).toString(16).padStart(2, "0")).join("")}`;
  if (/^#[0-9a-f]{3}$/i.test(written)) return `#${[...written.slice(1)].map((c) => c + c).join("")}`.toLowerCase();
  return /^#[0-9a-f]{6}$/i.test(written) ? written.toLowerCase() : undefined;
}

function gridEdges(core: Core, edges: NonNullable<BookLook["edges"]>): NonNullable<IStyleData["bd"]> {
  return Object.fromEntries(
    sides.flatMap((side) => {
      const edge = edges[side];
      const line = lines.find(([name]) => name === edge?.line)?.[1];
      return edge && line
        ? [[sideKeys[side], { s: core.BorderStyleTypes[line], cl: { rgb: edge.color ?? black } }] as const]
        : [];
    }),
  );
}

/** A look as the grid keeps it. */
export function gridStyleOf(core: Core, look: BookLook): GridStyle {
  const { BooleanNumber, HorizontalAlign, VerticalAlign, WrapStrategy } = core;
  const {
    font,
    size,
    bold,
    italic,
    underline,
    strike,
    color,
    background,
    edges,
    align,
    indent,
    vertical,
    wrap,
    shrink,
    format,
  } = look;
  const ht = across.find(([name]) => name === align)?.[1];
  const vt = upright.find(([name]) => name === vertical)?.[1];
  return {
    ...(font !== undefined && { ff: font }),
    ...(size !== undefined && { fs: size }),
    ...(color !== undefined && { cl: { rgb: color } }),
    ...(vt && { vt: VerticalAlign[vt] }),
    ...(bold && { bl: BooleanNumber.TRUE }),
    ...(italic && { it: BooleanNumber.TRUE }),
    ...(underline && { ul: { s: BooleanNumber.TRUE } }),
    ...(strike && { st: { s: BooleanNumber.TRUE } }),
    ...(background !== undefined && { bg: { rgb: background } }),
    ...(edges && { bd: gridEdges(core, edges) }),
    ...(ht && { ht: HorizontalAlign[ht] }),
    ...(indent !== undefined && { pd: { [align === "right" ? "r" : "l"]: indent * indentPixels } }),
    ...(wrap && { tb: WrapStrategy.WRAP }),
    ...(shrink && { shrink }),
    ...(format !== undefined && { n: { pattern: format } }),
  };
}

type Borders = Readonly<Partial<Record<"l" | "r" | "t" | "b", Nullable<IBorderStyleData>>>>;

function edgesOf(core: Core, borders: Borders): BookLook["edges"] {
  const found = sides.flatMap((side): readonly (readonly [Side, Edge])[] => {
    const edge = borders[sideKeys[side]];
    const line = edge && lines.find(([, key]) => core.BorderStyleTypes[key] === edge.s)?.[0];
    const color = plainColour(edge?.cl?.rgb);
    return line ? [[side, { line, ...(color !== undefined && { color }) }]] : [];
  });
  return found.length === 0 ? undefined : Object.fromEntries(found);
}

/** The look of a style that the grid keeps. */
export function lookOfGrid(core: Core, style: GridStyle): BookLook {
  const { BooleanNumber, HorizontalAlign, VerticalAlign, WrapStrategy } = core;
  const color = plainColour(style.cl?.rgb);
  const background = plainColour(style.bg?.rgb);
  const edges = style.bd ? edgesOf(core, style.bd) : undefined;
  const align = across.find(([, key]) => HorizontalAlign[key] === style.ht)?.[0];
  const padding = style.pd?.l ?? style.pd?.r ?? 0;
  const vertical = upright.find(([, key]) => VerticalAlign[key] === style.vt)?.[0];
  return {
    ...(style.ff && { font: style.ff }),
    ...(style.fs !== undefined && { size: style.fs }),
    ...(style.bl === BooleanNumber.TRUE && { bold: true as const }),
    ...(style.it === BooleanNumber.TRUE && { italic: true as const }),
    ...(style.ul?.s === BooleanNumber.TRUE && { underline: true as const }),
    ...(style.st?.s === BooleanNumber.TRUE && { strike: true as const }),
    ...(color !== undefined && { color }),
    ...(background !== undefined && { background }),
    ...(edges && { edges }),
    ...(align && { align }),
    ...(padding > 0 && { indent: Math.round(padding / indentPixels) }),
    ...(vertical && { vertical }),
    ...(style.tb === WrapStrategy.WRAP && { wrap: true as const }),
    ...(style.shrink && { shrink: true as const }),
    ...(style.n?.pattern && { format: style.n.pattern }),
  };
}
