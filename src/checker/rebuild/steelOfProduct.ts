import { kindOfProduct } from "../../core/index.ts";
import type { Inputs } from "../../sheet/index.ts";
import { computed } from "../quickStart/sections.ts";

/** What a product fills on a sheet, by the input that takes the same where it is typed. */
const filled: Readonly<Record<string, string>> = {
  As1In: "AREA",
  fpkIn: "TENSILE_STRENGTH",
  fp01kIn: "PROOF_STRESS",
  EpIn: "MODULUS",
  diameterIn: "DIAMETER",
  relaxIn: "RELAXATION_CLASS",
};

/**
 * The values in force on a sheet that its product gives and nobody typed, by input id: what has to be typed where the
 * product is not on the list. Empty where no product is named.
 */
export function steelOfProduct(inputs: Inputs): Readonly<Record<string, number>> {
  const { product } = inputs;
  if (typeof product !== "string" || product === "" || kindOfProduct(product) === undefined) return {};
  return Object.fromEntries(
    Object.entries(filled)
      .filter(([id]) => id in inputs && (inputs[id] === null || inputs[id] === ""))
      .map(([id, property]) => [id, Number(computed("TENDON_PRODUCT", [product, property]).toPrecision(8))]),
  );
}
