import { faultOfLogo, logoLimits, logoName, logoOfPlaced, pictureIn, type PlacedLogo } from "../../sheet/index.ts";
import type { Picture } from "../../sheet/index.ts";
import { isPlace } from "./logoPlace.ts";
import { at, child, NotThere, type Element } from "./readXml.ts";
import { element } from "./xml.ts";

/** The file's unit of length: so many a millimetre. */
const perMillimetre = 36_000;
const length = (millimetres: number): number => Math.round(millimetres * perMillimetre);
/** To the hundredth, as plans have lengths. */
const millimetres = (said: string | undefined): number => Math.round(Number(said) / (perMillimetre / 100)) / 100;

export function pictureOf({ image }: PlacedLogo): Picture {
  const picture = pictureIn(image);
  if (typeof picture === "string") throw new Error(`the logo cannot be written: ${picture}`);
  return picture;
}

/** The logo as a drawing of a sheet has it: from a corner in a cell on, of a size of its own. */
export function logoXml(logo: PlacedLogo, id: number, relation: string): string {
  const size = { cx: length(logo.width), cy: length(logo.height) };
  return element(
    "xdr:oneCellAnchor",
    {},
    element(
      "xdr:from",
      {},
      element("xdr:col", {}, String(logo.at.column)),
      element("xdr:colOff", {}, String(length(logo.across))),
      element("xdr:row", {}, String(logo.at.row)),
      element("xdr:rowOff", {}, String(length(logo.down))),
    ),
    element("xdr:ext", size),
    element(
      "xdr:pic",
      {},
      element(
        "xdr:nvPicPr",
        {},
        element("xdr:cNvPr", { id, name: logoName, descr: logo.text }),
        element("xdr:cNvPicPr", {}, element("a:picLocks", { noChangeAspect: 1 })),
      ),
      element(
        "xdr:blipFill",
        {},
        element("a:blip", {
          "xmlns:r": "http://schemas.openxmlformats.org/officeDocument/2006/relationships",
          "r:embed": relation,
        }),
        element("a:stretch", {}, element("a:fillRect")),
      ),
      element(
        "xdr:spPr",
        {},
        element("a:xfrm", {}, element("a:off", { x: 0, y: 0 }), element("a:ext", size)),
        element("a:prstGeom", { prst: "rect" }, element("a:avLst")),
      ),
    ),
    element("xdr:clientData"),
  );
}

/** No longer than an office's file may say it. */
const logoText = (said = logoName): string =>
  [...said.slice(0, 2 * logoLimits.text)].slice(0, logoLimits.text).join("");

/** A logo of ours in a drawing, by its name, with the relation to its picture; undefined where the anchor holds another thing. */
export function readLogoAnchor(
  anchor: Element,
): { readonly place: Omit<PlacedLogo, "image">; readonly relation: string } | undefined {
  const picture = child(anchor, "xdr:pic");
  const said = child(child(picture, "xdr:nvPicPr"), "xdr:cNvPr")?.attributes;
  const relation = child(child(picture, "xdr:blipFill"), "a:blip")?.attributes["r:embed"];
  if (!picture || said?.["name"] !== logoName || relation === undefined) return undefined;
  try {
    const from = (name: string): string => at(anchor, "xdr:from", name).text;
    const size = child(anchor, "xdr:ext") ?? at(picture, "xdr:spPr", "a:xfrm", "a:ext");
    const place = {
      text: logoText(said["descr"]),
      at: { row: Number(from("xdr:row")), column: Number(from("xdr:col")) },
      across: millimetres(from("xdr:colOff")),
      down: millimetres(from("xdr:rowOff")),
      width: millimetres(size.attributes["cx"]),
      height: millimetres(size.attributes["cy"]),
    };
    return isPlace(place) ? { relation, place } : undefined;
  } catch (error) {
    if (error instanceof NotThere) return undefined;
    throw error;
  }
}

/** The same with its picture; undefined where that is none which an office's file could hold. */
export function readLogo(place: Omit<PlacedLogo, "image">, part: string, bytes: Uint8Array): PlacedLogo | undefined {
  if (bytes.length > logoLimits.bytes) return undefined;
  const kind = /\.png$/i.test(part) ? "png" : "jpeg";
  // A piece at a time: a call takes only so many arguments.
  const letters = Array.from({ length: Math.ceil(bytes.length / 4096) }, (_, i) =>
    String.fromCharCode(...bytes.subarray(i * 4096, (i + 1) * 4096)),
  );
  const logo = { ...place, image: `data:image/${kind};base64,${btoa(letters.join(""))}` };
  return faultOfLogo(logoOfPlaced(logo)) === undefined ? logo : undefined;
}
