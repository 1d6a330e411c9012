import type { Address } from "../cells/index.ts";
import { bandRow, columns } from "./columns.ts";
import { printScale } from "./pageBreaks.ts";
import type { Plan } from "./plan.ts";
import { basedOn } from "./skeleton.ts";
import type { Template } from "./template.ts";

/** The sign of an office, as its files say it. */
export interface Logo {
  /** A PNG or JPEG as `data:image/png;base64,…`. */
  readonly image: string;
  /** On paper, in millimetres; the height follows from the picture. */
  readonly width: number;
  /** What is told in place of the picture to those who do not see it. */
  readonly text?: string;
}

/** A logo with its place: from the corner of a cell on, in millimetres of the sheet. */
export interface PlacedLogo {
  readonly image: string;
  readonly text: string;
  readonly at: Address;
  readonly across: number;
  readonly down: number;
  readonly width: number;
  readonly height: number;
}

/** What the picture is called on a sheet, in every program: known again by it. */
export const logoName = "Logo of the office";
export const logoLimits = { bytes: 100_000, pixels: 4_000, width: { min: 5, max: 40 }, height: 10, text: 120 } as const;

export interface Picture {
  readonly kind: "png" | "jpeg";
  readonly bytes: Uint8Array;
  /** In pixels. */
  readonly width: number;
  readonly height: number;
}

const pngSign = [0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a];

const two = (bytes: Uint8Array, at: number): number => (bytes[at]! << 8) | bytes[at + 1]!;

/** Width and height as the first part of a PNG says them, which ends with a part of its own. */
function pngSize(bytes: Uint8Array): readonly [number, number] | undefined {
  const is = (at: number, word: string): boolean =>
    [...word].every((letter, i) => bytes[at + i] === letter.charCodeAt(0));
  if (bytes.length < 45 || !is(12, "IHDR") || !is(bytes.length - 8, "IEND")) return undefined;
  return [two(bytes, 16) * 65_536 + two(bytes, 18), two(bytes, 20) * 65_536 + two(bytes, 22)];
}

/** Width and height as the frame of a JPEG says them; its parts tell their lengths. */
function jpegSize(bytes: Uint8Array): readonly [number, number] | undefined {
  const isFrame = (mark: number): boolean => mark >= 0xc0 && mark <= 0xcf && ![0xc4, 0xc8, 0xcc].includes(mark);
  if (two(bytes, bytes.length - 2) !== 0xffd9) return undefined;
  for (let at = 2; at + 9 < bytes.length && bytes[at] === 0xff; at += 2 + two(bytes, at + 2))
    if (isFrame(bytes[at + 1]!)) return [two(bytes, at + 7), two(bytes, at + 5)];
  return undefined;
}

/** The pictures read last, by their addresses: an office has one, which all its sheets and files ask for again. */
const read = new Map<string, Picture>();
const mostRead = 4;

/** The picture in a data address, known by its bytes and not by what the address says; a text says why it is none. */
export function pictureIn(image: string): Picture | string {
  const known = read.get(image);
  if (known) return known;
  const picture = readPicture(image);
  if (typeof picture === "string") return picture;
  if (read.size >= mostRead) read.delete(read.keys().next().value!);
  read.set(image, picture);
  return picture;
}

function readPicture(image: string): Picture | string {
  const [, said, text] = /^data:image\/([a-z+.-]+);base64,([A-Za-z0-9+/]+={0,2})$/.exec(image) ?? [];
  if (said === "svg+xml") return "an SVG is not taken, since it can hold programs and addresses; PNG or JPEG";
  if (text === undefined || text.length % 4 !== 0)
    return "it is no picture as data:image/png;base64,… or data:image/jpeg;base64,…";
  const size = (text.length / 4) * 3 - (text.endsWith("==") ? 2 : text.endsWith("=") ? 1 : 0);
  if (size > logoLimits.bytes) return `it has ${size} bytes; at most ${logoLimits.bytes}`;
  const bytes = Uint8Array.from(atob(text), (letter) => letter.charCodeAt(0));
  const isPng = pngSign.every((byte, i) => bytes[i] === byte);
  const isJpeg = bytes[0] === 0xff && bytes[1] === 0xd8 && bytes[2] === 0xff;
  if (!isPng && !isJpeg) return "its first bytes are those of neither a PNG nor a JPEG";
  const kind = isPng ? "png" : "jpeg";
  if (said !== kind) return `it says image/${said} and is a ${kind.toUpperCase()}: image/${kind}`;
  const pixels = isPng ? pngSize(bytes) : jpegSize(bytes);
  if (!pixels) return `the ${kind.toUpperCase()} is damaged or was cut short`;
  const [width, height] = pixels;
  const most = logoLimits.pixels;
  if (width < 1 || height < 1 || width > most || height > most)
    return `it has ${width} × ${height} pixels; from 1 to ${most} each way`;
  return { kind, bytes, width, height };
}

const rounded = (length: number): number => Math.round(length * 100) / 100;

/** Why a logo is not taken; undefined where it is. */
export function faultOfLogo({ image, width }: Logo): string | undefined {
  const picture = pictureIn(image);
  if (typeof picture === "string") return `image: ${picture}`;
  const { min, max } = logoLimits.width;
  if (!(width >= min && width <= max)) return `width = ${width} mm; from ${min} to ${max} mm`;
  const height = (width * picture.height) / picture.width;
  if (height <= logoLimits.height) return undefined;
  const fitting = Math.floor((logoLimits.height * picture.width) / picture.height);
  return (
    `width = ${width} mm makes it ${rounded(height)} mm high; at most ${logoLimits.height} mm` +
    (fitting >= min ? `, with a width up to ${fitting} mm` : "; a flatter picture is needed")
  );
}

/** The logo that a template's sheets carry; those of a linked one carry its source's. */
export const logoOf = ({ logo, source }: Template): Logo | undefined => logo ?? source?.template.logo;

/** In millimetres of the sheet, as files have them: 7 pixels a digit and 5 around it. */
const columnWidth = (characters: number): number => ((characters * 7 + 5) / 96) * 25.4;
/** The verdict's row has three lines of 12 points. */
const bandHeight = (36.25 / 72) * 25.4;
const beside = 1;

/**
 * The plan with a logo at the right end of the verdict's row, whose text makes room. Cells and rows stay where they are,
 * and so does the hash. A plan that has one keeps it. `above`: rows that a copy has above those of its original.
 */
export function withLogo(plan: Plan, logo: Logo | undefined, above = 0): Plan {
  if (!logo || plan.logo) return plan;
  const band = bandRow + above;
  const fault = faultOfLogo(logo);
  if (fault !== undefined) throw new Error(`the logo cannot be placed: ${fault}`);
  const picture = pictureIn(logo.image) as Picture;
  const onSheet = 100 / printScale;
  const width = rounded(logo.width * onSheet);
  const height = rounded((width * picture.height) / picture.width);
  let first: number = columns.mark;
  let room = columnWidth(plan.widths[first] ?? 0);
  while (room < width + 2 * beside && first > columns.description) room += columnWidth(plan.widths[--first] ?? 0);
  const text = plan.spans.find(
    ({ row, column, columns: wide }) => row === band && column < first && column + wide > first,
  );
  const placed: PlacedLogo = {
    image: logo.image,
    text: logo.text ?? logoName,
    at: { row: band, column: first },
    across: rounded(room - width - beside),
    down: rounded(Math.max(0, (bandHeight - height) / 2)),
    width,
    height,
  };
  const spans = plan.spans.map((span) => (span === text ? { ...span, columns: first - span.column } : span));
  return basedOn(plan, { ...plan, spans, logo: placed });
}

/**
 * A placed logo as an office's file would say it, for another sheet. Programs hold sizes in steps of their own and draw
 * pictures anew in whole pixels: what comes back a little outside the limits is taken at them.
 */
export function logoOfPlaced({ image, text, width }: PlacedLogo): Logo {
  const picture = pictureIn(image);
  const { min, max } = logoLimits.width;
  const highest = typeof picture === "string" ? max : (logoLimits.height * picture.width) / picture.height;
  const widest = Math.floor(Math.min(max, highest) * 100) / 100;
  const onPaper = Math.max(min, Math.min(widest, rounded((width * printScale) / 100)));
  return { image, width: onPaper, ...(text !== logoName && { text }) };
}
