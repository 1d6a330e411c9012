import { tendonProduct } from "../core/index.ts";
import type { Parts } from "./compose.ts";

const products = (starts: string): Parts[string] =>
  tendonProduct.values.filter(({ value }) => value.startsWith(starts)).map(({ value, text }) => ({ value, text }));

/** Choices of the core as parts for templates, in lists short enough for the spreadsheet program (255 characters). */
export const choiceParts: Parts = { strandsEn: products("Y1860S7"), strandsIs: products("IS14268") };
