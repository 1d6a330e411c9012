import { formulas, run } from "../../core/index.ts";
import type { Inputs } from "../../sheet/index.ts";

/** A double tee is a T on its sheet, with the width of both webs together: area, centroid and second moment are the same. */
export type SectionType = "RECTANGLE" | "T" | "I" | "BOX" | "DOUBLE_TEE";

/** The section that the sheet is told. */
export const sheetSection = (type: SectionType): string => (type === "DOUBLE_TEE" ? "T" : type);

/** What a sheet says of a section that it holds as another one. */
export const sectionSaid = (type: SectionType): string | undefined =>
  type === "DOUBLE_TEE" ? "Double tee: both webs together; shear and torsion per web" : undefined;

/** Which dimension of USUAL_SECTION an input of a section takes. */
const usualOf: Readonly<Record<SectionType, Readonly<Record<string, string>>>> = {
  RECTANGLE: { b: "RECTANGLE_WIDTH" },
  T: { bf: "T_FLANGE_WIDTH", tf: "T_FLANGE", bw: "T_WEB" },
  I: { btop: "I_TOP_WIDTH", ttop: "I_TOP", bwi: "I_WEB", bbot: "I_BOTTOM_WIDTH", tbot: "I_BOTTOM" },
  BOX: { bbox: "BOX_WIDTH", ttopbox: "BOX_TOP", tbotbox: "BOX_BOTTOM", tweb: "BOX_WEB" },
  DOUBLE_TEE: { bf: "T_FLANGE_WIDTH", tf: "T_FLANGE", bw: "T_WEB" },
};

/** A floor unit of usual width with a thin flange and two webs, mm. Common practice, no source. */
function usualDoubleTee(h: number): Inputs {
  const eachWeb = 10 * Math.round(Math.max(120, 0.1 * h + 70) / 10);
  return { h, bf: 2400, tf: 60, bw: 2 * eachWeb };
}

/** The inputs that describe a section, depth first. */
export const sectionInputs = (type: SectionType): readonly string[] => ["h", ...Object.keys(usualOf[type])];

/** Usual proportions of a section by its depth, mm. Common practice, no source: to be replaced by the member's own. */
export function usualSection(type: SectionType, h: number): Inputs {
  if (type === "DOUBLE_TEE") return usualDoubleTee(h);
  const parts = Object.entries(usualOf[type]).map(([id, part]) => [id, computed("USUAL_SECTION", [h, part])] as const);
  return { h, ...Object.fromEntries(parts) };
}

const order: Readonly<Record<SectionType, readonly [id: string, arguments: readonly string[]]>> = {
  RECTANGLE: ["RECTANGLE_SECTION", ["b", "h"]],
  T: ["T_SECTION", ["h", "bf", "tf", "bw"]],
  DOUBLE_TEE: ["T_SECTION", ["h", "bf", "tf", "bw"]],
  I: ["I_SECTION", ["h", "btop", "ttop", "bwi", "bbot", "tbot"]],
  BOX: ["BOX_SECTION", ["bbox", "h", "ttopbox", "tbotbox", "tweb"]],
};

/** A worksheet function by its id. */
export function computed(id: string, args: readonly unknown[]): number {
  return run(
    formulas.find((formula) => formula.id === id)!,
    args as Parameters<typeof run>[1],
  );
}

/** Area, centroid and second moment of a section, mm. */
export function propertiesOf(
  type: SectionType,
  dimensions: Inputs,
): { readonly A: number; readonly yb: number; readonly I: number } {
  const [id, names] = order[type];
  const of = (property: string): number => computed(id, [...names.map((name) => dimensions[name]), property]);
  return { A: of("AREA"), yb: of("CENTROID"), I: of("INERTIA") };
}
