import { faultOfLogo, logoName, logoOfPlaced, type Logo, type Plan } from "../../sheet/index.ts";
import { LogoNotTaken } from "../host/host.ts";
import { defaultRowHeight, type Heights } from "../look/measures.ts";
import { columnPoints } from "./measures.ts";

const pointsOf = (millimetres: number): number => (millimetres / 25.4) * 72;
const millimetresOf = (points: number): number => Math.round((points / 72) * 2540) / 100;

/** Puts the logo over its cells. A cell tells its place from ExcelApi 1.10 on only, so it is worked out from the sizes set. */
export function addLogo(sheet: Excel.Worksheet, { logo, widths }: Plan, heights: Heights): void {
  if (!logo) return;
  const { image, text, at, across, down, width, height } = logo;
  const shape = sheet.shapes.addImage(image.slice(image.indexOf(",") + 1));
  shape.name = logoName;
  shape.altTextDescription = text;
  // One side sets the other where the proportions hold.
  shape.lockAspectRatio = false;
  shape.width = pointsOf(width);
  shape.height = pointsOf(height);
  shape.lockAspectRatio = true;
  const left = widths.slice(0, at.column).reduce((sum, one) => sum + columnPoints(one), 0);
  const top = Array.from({ length: at.row }, (_, row) => heights.get(row) ?? defaultRowHeight);
  shape.left = left + pointsOf(across);
  shape.top = top.reduce((sum, one) => sum + one, 0) + pointsOf(down);
}

/** The logo on a sheet, as the program draws it: it does not give back the picture that it was given. */
export async function readLogo(sheet: Excel.Worksheet): Promise<Logo | undefined> {
  const { shapes } = sheet;
  shapes.load("items/name,items/width,items/height,items/altTextDescription");
  await sheet.context.sync();
  const shape = shapes.items.find(({ name }) => name === logoName);
  if (!shape) return undefined;
  const drawn = shape.getAsImage("PNG");
  await sheet.context.sync();
  const logo = logoOfPlaced({
    image: `data:image/png;base64,${drawn.value}`,
    text: shape.altTextDescription || logoName,
    at: { row: 0, column: 0 },
    across: 0,
    down: 0,
    width: millimetresOf(shape.width),
    height: millimetresOf(shape.height),
  });
  const fault = faultOfLogo(logo);
  if (fault !== undefined)
    throw new LogoNotTaken(`the picture “${logoName}” cannot be taken along: ${fault}. Make it smaller, or delete it.`);
  return logo;
}
