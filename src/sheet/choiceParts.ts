import { kindOfProduct, tendonProduct } from "../core/index.ts";
import type { Parts } from "./compose.ts";

const products = (names: RegExp, fits: (name: string) => boolean = () => true): Parts[string] =>
  tendonProduct.values
    .filter(({ value }) => names.test(value) && fits(value))
    .map(({ value, text }) => ({ value, text }));

/** Bars are not pre-tensioned: no transmission length is given for them. */
const noBar = (name: string): boolean => kindOfProduct(name) !== "BAR";
const en = /^Y1860S[37]-|^Y1050H-|^BS5896-(1770-[456]|1670-7)$/;
const is = /^IS/;

/** Choices of the core as parts for templates, in lists short enough for the spreadsheet program (255 characters). */
export const choiceParts: Parts = {
  productsEn: products(en),
  productsIs: products(is),
  productsPreEn: products(en, noBar),
  productsPreIs: products(is, noBar),
};
