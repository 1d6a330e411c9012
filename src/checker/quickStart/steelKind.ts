import { InputError, kindOfProduct, type ProductKind } from "../../core/index.ts";
import { isEn, isPost, type Inputs, type Template } from "../../sheet/index.ts";
import type { Answers } from "./answers.ts";
import { computed } from "./sections.ts";

/** Strand, wire or bar. */
export const kindOf = ({ product }: Pick<Answers, "product">): ProductKind => kindOfProduct(product) ?? "STRAND";
export const isBar = (of: Pick<Answers, "product">): boolean => kindOf(of) === "BAR";

/** EN 1992-1-1 Table 5.1, internal tendons: cold-drawn wire, strand, deformed bar. 1/rad. */
const friction: Readonly<Record<ProductKind, number>> = { WIRE: 0.17, STRAND: 0.19, BAR: 0.65 };
/** What a nut settles at lock-off, mm. Common practice, no source. */
const nutSettles = 2;

/**
 * Inputs of the stress check that go by the kind of steel: how it bonds (EN 1992-1-1 8.10.2.2 knows wires only where
 * they are indented), how it rubs in the duct, how its anchorage settles.
 */
export function kindInputs(template: Template, answers: Answers): Inputs {
  const kind = kindOf(answers);
  const en = isEn(template);
  if (!isPost(template)) {
    const wire = en ? "INDENTED_WIRE" : "WIRE";
    return { surface: kind === "WIRE" ? wire : "STRAND" };
  }
  return { ...(en && { mu: friction[kind] }), ...(kind === "BAR" && { slip: nutSettles }) };
}

/**
 * Radius at which bending brings a bar from its jacking stress to its proof stress, m: E d/(2R) = f_p − σ_j, of a round
 * bar that stays elastic (beam theory). Throws InputError where no stress is left for bending.
 */
export function radiusOfBar({ product }: Answers, sigj: number): number {
  const of = (property: string): number => computed("TENDON_PRODUCT", [product, property]);
  const proof = of("PROOF_STRESS");
  const spare = proof - sigj;
  if (spare <= 0)
    throw new InputError(
      "sigj",
      `σ_j = ${sigj} MPa at the jack is not allowed; it must be below ${proof} MPa, the proof stress of ${product}. ` +
        "Enter a lower jacking stress.",
    );
  return Math.ceil((of("MODULUS") * of("DIAMETER")) / (2 * spare));
}

/** Refuses answers that no sheet of the template can hold, in words. */
export function refuseSteel(template: Template, answers: Answers): void {
  const { product, tendons, strands, sizing } = answers;
  const post = isPost(template);
  const { max } = template.shape.find(({ id }) => id === (post ? "tendons" : "rows"))!;
  const [what, many] = post ? ["tendons", "Tendons"] : ["rows of strands", "Strand rows"];
  if (tendons !== undefined && !(Number.isInteger(tendons) && tendons >= 1 && tendons <= max!))
    throw new InputError("tendons", `${many} = ${tendons} is not allowed; the sheet holds 1 to ${max} ${what}.`);
  if (strands !== undefined && !(Number.isInteger(strands) && strands >= 1))
    throw new InputError(
      "strands",
      `Strands per ${post ? "tendon" : "row"} = ${strands} is not allowed; a whole number from 1 is needed.`,
    );
  if (post && answers.section === "DOUBLE_TEE")
    throw new InputError(
      "section",
      "A double tee is taken as one T for pre-tensioned members alone; choose T-section.",
    );
  if (!isBar(answers)) return;
  if (!post)
    throw new InputError(
      "product",
      `${product} is a bar, which is not pre-tensioned: no transmission length is given for bars. Choose a strand or a wire.`,
    );
  const inEach = strands ?? (sizing ? Math.ceil(sizing.strands / sizing.tendons) : 1);
  if (inEach !== 1)
    throw new InputError(
      "strands",
      `${product} is a bar: ${inEach} in each duct are not allowed, one bar goes in a duct. ` +
        `Type the number of bars as tendons, up to ${max}, or choose a strand.`,
    );
}
