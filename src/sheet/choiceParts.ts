import { tendonProduct } from "../core/index.ts";
import type { Parts } from "./compose.ts";

const products = (names: RegExp): Parts[string] =>
  tendonProduct.values.filter(({ value }) => names.test(value)).map(({ value, text }) => ({ value, text }));

/** Choices of the core as parts for templates, in lists short enough for the spreadsheet program (255 characters). */
export const choiceParts: Parts = {
  productsEn: products(/^Y1860S[37]-|^Y1050H-|^BS5896-(1770-[456]|1670-7)$/),
  productsIs: products(/^IS/),
};
