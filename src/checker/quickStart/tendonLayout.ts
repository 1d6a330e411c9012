import type { Inputs } from "../../sheet/index.ts";
import type { Answers } from "./answers.ts";
import type { Layout } from "./layout.ts";
import { computed } from "./sections.ts";
import { isBar, radiusOfBar } from "./steelKind.ts";

export const mostTendons = 6;

export const strandsInTendon = 12;

/** Where six tendons of that size do not suffice. */
export const mostInTendon = 22;

/** Clear distance kept between ducts, mm, and of the lowest tendon from the soffit. Common practice, no source. */
const between = 40;

export const cover = 60;

/** Eccentricity at the ends over the depth. Common practice, no source. */
export const endBelow = 0.05;

/** In a box the tendons lie in the two webs, two at a height. */
export const side = ({ section }: Answers): number => (section === "BOX" ? 2 : 1);

function ductFor(strands: number, product: string): number {
  const steel = strands * computed("TENDON_PRODUCT", [product, "AREA"]);
  return Math.ceil(Math.sqrt((2.5 * steel * 4) / Math.PI) / 5) * 5;
}

/** Ducts side by side at a height: in a box one in each web; bars as many as the web has room for, others one. */
export function abreast(strands: number, answers: Answers, dimensions: Inputs): number {
  if (!isBar(answers) || answers.section === "BOX") return side(answers);
  const web = Number(dimensions[{ RECTANGLE: "b", T: "bw", DOUBLE_TEE: "bw", I: "bwi" }[answers.section]]);
  return Math.max(1, Math.floor((web - 2 * cover + between) / (ductFor(strands, answers.product) + between)));
}

/** Horizontal places of the ducts at a height, from one side to the other, mm. */
function across(layout: Layout, answers: Answers, dimensions: Inputs): readonly number[] {
  const { count, strands } = layout;
  const beside = abreast(strands, answers, dimensions);
  const box = answers.section === "BOX";
  const step = box
    ? Number(dimensions["bbox"]) - Number(dimensions["tweb"])
    : ductFor(strands, answers.product) + between;
  return Array.from({ length: count }, (_, i) => {
    const level = Math.floor(i / beside);
    const here = box ? beside : Math.min(beside, count - level * beside);
    return ((i % beside) - (here - 1) / 2) * step;
  });
}

/** Height of the tendons above the lowest one, mm, and the lowest height of their centroid. */
export function stack(
  layout: Layout,
  answers: Answers,
  dimensions: Inputs,
): { readonly lifts: readonly number[]; readonly lowest: number } {
  const duct = ductFor(layout.strands, answers.product);
  const step = duct + between;
  const beside = abreast(layout.strands, answers, dimensions);
  const lifts = Array.from({ length: layout.count }, (_, i) => Math.floor(i / beside) * step);
  const mean = lifts.reduce((sum, lift) => sum + lift, 0) / layout.count;
  return { lifts, lowest: cover + duct / 2 + mean };
}

/**
 * Tendons one above the other, level at midspan, their ends spread round the centroid; bars straight. The others follow
 * the first.
 */
export function tendonInputs(
  layout: Layout,
  e: number,
  yb: number,
  answers: Answers,
  dimensions: Inputs,
  sigj: number,
): Inputs {
  const { count, strands } = layout;
  const duct = ductFor(strands, answers.product);
  const { lifts, lowest } = stack(layout, answers, dimensions);
  const all = <T>(value: T): readonly T[] => Array.from({ length: count }, () => value);
  const bar = isBar(answers);
  const beside = across(layout, answers, dimensions);
  const mean = lowest - cover - duct / 2;
  const mid = Math.max(lowest, yb - e) - mean;
  // A little below the centroid: in the middle of the room that ends have.
  const end = bar ? mid : Math.max(mid, yb - endBelow * answers.h - mean);
  return {
    tendons: count,
    points: 3,
    strands: all(strands),
    duct: all(duct),
    sigj: all(sigj),
    end: all("LEFT"),
    Rlim: all(bar ? radiusOfBar(answers, sigj) : 6),
    // The uppermost first: what is stressed then pulls least at the top.
    order: bar
      ? inPairs(beside, abreast(strands, answers, dimensions))
      : Array.from({ length: count }, (_, i) => count - i),
    likeT: Array.from({ length: count }, (_, i) => (i === 0 ? null : 1)),
    lift: lifts,
    ...(beside.some((z) => z !== 0) && { zt: beside }),
    cpL: [[0, 0.5, 1], ...Array.from({ length: count - 1 }, () => [null, null, null])],
    cpy: [
      [Math.round(end), Math.round(mid), Math.round(end)],
      ...Array.from({ length: count - 1 }, () => [null, null, null]),
    ],
    cpShape: all(bar ? ["LINE", "LINE", "LINE"] : ["TO_LEVEL", "FROM_LEVEL", "LINE"]),
  };
}

/** From the uppermost level down, the middle before the sides; two bars alike beside the middle together, or they bend it sideways. */
function inPairs(across: readonly number[], beside: number): readonly number[] {
  const step = (i: number): number => -Math.floor(i / beside) * 1e6 + Math.abs(across[i]!);
  const steps = [...new Set(across.map((_, i) => step(i)))].sort((a, b) => a - b);
  return across.map((_, i) => steps.indexOf(step(i)) + 1);
}

/** What a layout costs, in strands: a tendon's anchorages count, and one that needs a large jack more. Common practice, no source. */
export const costOf = ({ count, strands }: Layout): number =>
  count * (strands + 2 + (strands > strandsInTendon ? 4 : 0));
