import { formulas, run } from "../../core/index.ts";
import type { Inputs } from "../../sheet/index.ts";

export type SectionType = "RECTANGLE" | "T" | "I" | "BOX";

const round10 = (value: number): number => Math.max(10, Math.round(value / 10) * 10);

/** Usual proportions of a section by its depth, mm. Common practice, no source: to be replaced by the member's own. */
export function usualSection(type: SectionType, h: number): Inputs {
  const of = (share: number, min: number): number => round10(Math.max(share * h, min));
  switch (type) {
    case "RECTANGLE":
      return { h, b: of(0.4, 200) };
    case "T":
      return { h, bf: of(1, 400), tf: of(0.15, 100), bw: of(0.25, 180) };
    case "I":
      return { h, btop: of(0.7, 300), ttop: of(0.15, 100), bwi: of(0.2, 160), bbot: of(0.45, 250), tbot: of(0.2, 120) };
    case "BOX":
      return { h, bbox: of(1.2, 600), ttopbox: of(0.2, 150), tbotbox: of(0.18, 150), tweb: of(0.2, 150) };
  }
}

const order: Readonly<Record<SectionType, readonly [id: string, arguments: readonly string[]]>> = {
  RECTANGLE: ["RECTANGLE_SECTION", ["b", "h"]],
  T: ["T_SECTION", ["h", "bf", "tf", "bw"]],
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
