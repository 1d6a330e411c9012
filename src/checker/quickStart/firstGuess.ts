import { NoResult } from "../../core/index.ts";
import { isEn, isPost, type Inputs, type Template } from "../../sheet/index.ts";
import type { Answers } from "./answers.ts";
import type { Layout } from "./layout.ts";
import { computed, propertiesOf } from "./sections.ts";
import { sized, type ToSize } from "./sizing.ts";
import { isBar, kindOf } from "./steelKind.ts";
import { spacingOf } from "./strandLayout.ts";
import { cover, mostInTendon, mostTendons, side, strandsInTendon } from "./tendonLayout.ts";
import { shareAtTransfer } from "./usualInputs.ts";

const mostRows = 10;

/** Width of the section where the lowest tendons lie, mm. */
function bottomWidth({ section }: Answers, dimensions: Inputs): number {
  return Number(dimensions[{ RECTANGLE: "b", T: "bw", DOUBLE_TEE: "bw", I: "bbot", BOX: "bbox" }[section]]);
}

export function layoutFor(template: Template, total: number, answers: Answers, dimensions: Inputs): Layout {
  const atLeastOne = (value: number): number => Math.max(1, Math.ceil(value));
  if (!isPost(template)) {
    const { apart, fromFace, fromSide } = spacingOf(kindOf(answers));
    const fits = Math.max(1, Math.floor((bottomWidth(answers, dimensions) - 2 * fromSide) / apart) + 1);
    // In a shallow member no more than lie within its height.
    const room = atLeastOne(Math.floor((answers.h - 2 * fromFace) / apart) + 1);
    const rows = answers.tendons ?? Math.min(mostRows, room, atLeastOne(total / (answers.strands ?? fits)));
    return { count: rows, strands: answers.strands ?? Math.min(fits, atLeastOne(total / rows)) };
  }
  const sides = side(answers);
  const each = isBar(answers) ? 1 : (answers.strands ?? strandsInTendon);
  const count = answers.tendons ?? Math.min(mostTendons, atLeastOne(total / (each * sides)) * sides);
  if (isBar(answers)) return { count, strands: 1 };
  return { count, strands: answers.strands ?? Math.min(mostInTendon, atLeastOne(total / count)) };
}

/**
 * A first guess at force and eccentricity, from which a trial sheet is built; where no force keeps all limits, one that
 * carries the permanent loads.
 */
export function guessed(
  template: Template,
  answers: Answers,
  dimensions: Inputs,
): { readonly P: number; readonly e: number } {
  const { A, I, yb } = propertiesOf(answers.section, dimensions);
  const fctm = isEn(template) ? computed("CONCRETE_TENSILE_STRENGTH_EN1992_2004", [answers.fck]) : 0;
  const strict = answers.demand !== "XC1" || !isEn(template);
  const g = computed("SELF_WEIGHT", [A, 25]);
  const lowest = Math.max(cover + 30, 0.08 * answers.h);
  const of: ToSize = {
    A,
    I,
    yb,
    h: answers.h,
    L: answers.L,
    g,
    gs: answers.gs,
    q: answers.ql,
    psi2: 0.3,
    fcTransfer: 0.6 * shareAtTransfer(template) * answers.fck,
    ftTransfer: -0.8 * fctm,
    fcService: (isEn(template) ? 0.6 : 0.33) * answers.fck,
    ftService: -fctm,
    fcPermanent: (isEn(template) ? 0.45 : 0.33) * answers.fck,
    ftPermanent: strict ? 0 : -fctm,
    lowest,
  };
  try {
    return sized(of);
  } catch (error) {
    if (!(error instanceof NoResult)) throw error;
    const e = Math.max(yb - lowest, 0.1 * answers.h);
    return { P: (((g + answers.gs + 0.5 * answers.ql) * answers.L ** 2) / 8 / e) * 1000, e };
  }
}
