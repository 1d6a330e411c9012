import { all, child, type Element } from "./readXml.ts";

/** The colours of the theme in the order in which cells number them: the first two pairs stand the other way round in the theme itself. */
const themeOrder = [
  "lt1",
  "dk1",
  "lt2",
  "dk2",
  "accent1",
  "accent2",
  "accent3",
  "accent4",
  "accent5",
  "accent6",
  "hlink",
  "folHlink",
];

/** The format's numbered colours from 8 on; 0 to 7 are the first eight again. */
const numbered = (
  "000000 ffffff ff0000 00ff00 0000ff ffff00 ff00ff 00ffff 800000 008000 000080 808000 800080 008080 c0c0c0 808080 " +
  "9999ff 993366 ffffcc ccffff 660066 ff8080 0066cc ccccff 000080 ff00ff ffff00 00ffff 800080 800000 008080 0000ff " +
  "00ccff ccffff ccffcc ffff99 99ccff ff99cc cc99ff ffcc99 3366ff 33cccc 99cc00 ffcc00 ff9900 ff6600 666699 969696 " +
  "003366 339966 003300 333300 993300 993366 333399 333333"
).split(" ");

/** `#rrggbb` of colours as the style part writes them. */
export type Colours = (of: Element | undefined) => string | undefined;

const parts = (hex: string): readonly number[] => [0, 2, 4].map((at) => parseInt(hex.slice(at, at + 2), 16));

/** Lighter where the tint is above 0, darker below; near enough to the program's own way to tell colours apart. */
function tinted(hex: string, tint: number): string {
  const towards = tint < 0 ? 0 : 255;
  const share = Math.min(1, Math.abs(tint));
  return parts(hex)
    .map((value) =>
      Math.round(value + (towards - value) * share)
        .toString(16)
        .padStart(2, "0"),
    )
    .join("");
}

function themeColours(theme: Element | undefined): readonly (string | undefined)[] {
  const scheme = child(child(theme, "a:themeElements"), "a:clrScheme");
  return themeOrder.map((name) => {
    const one = child(scheme, `a:${name}`);
    return child(one, "a:srgbClr")?.attributes["val"] ?? child(one, "a:sysClr")?.attributes["lastClr"];
  });
}

/** How colours of a workbook are to be read, by its theme and its own list of numbered colours. */
export function coloursOf(theme: Element | undefined, styles: Element): Colours {
  const ofTheme = themeColours(theme);
  const own = all(child(child(styles, "colors"), "indexedColors"), "rgbColor").map(({ attributes }) =>
    attributes["rgb"]?.slice(-6),
  );
  const byNumber = (n: number): string | undefined => own[n] ?? (n < 8 ? numbered[n] : numbered[n - 8]);
  return (of) => {
    if (!of) return undefined;
    const { rgb, theme: themed, indexed, tint } = of.attributes;
    const base =
      rgb?.slice(-6) ??
      (themed === undefined ? undefined : ofTheme[Number(themed)]) ??
      (indexed === undefined ? undefined : byNumber(Number(indexed)));
    if (base === undefined || !/^[0-9a-f]{6}$/i.test(base)) return undefined;
    return `#${(tint === undefined ? base : tinted(base, Number(tint))).toLowerCase()}`;
  };
}
