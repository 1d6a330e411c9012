import type { Family } from "../core/index.ts";
import type { WorksheetFunction } from "../../functions/index.ts";

/** A step of a designer's work, and what serves it. */
interface Task {
  readonly id: string;
  readonly title: string;
  /** What is asked at this point, in one sentence. */
  readonly asks: string;
  readonly families: readonly Family[];
  /** Functions of other subjects that serve here too. */
  readonly also?: RegExp;
}

/** In the order in which a member is designed. Every subject stands under one task. */
export const tasks: readonly Task[] = [
  {
    id: "size",
    title: "Choose and size the member",
    asks: "How deep is the member, which force does it need, and how many strands are that?",
    families: ["sizing"],
  },
  {
    id: "section",
    title: "Describe the section",
    asks: "Area, centroid and stiffness: gross, without ducts, with tendons counted.",
    families: ["section"],
  },
  {
    id: "layout",
    title: "Lay out the tendons",
    asks: "Where is the tendon at a section, how much has it turned since the jack, how long is it?",
    families: ["tendon"],
  },
  {
    id: "jacking",
    title: "Choose the jacking force",
    asks: "How far may the tendon be stressed, and what force is that?",
    families: [],
    also: /^JACKING_|^INITIAL_STRESS|^TENDON_(FORCE|STRESS)$|OVERSTRESS/,
  },
  {
    id: "immediate",
    title: "Immediate losses",
    asks: "What is left after friction, draw-in, the bed and elastic shortening?",
    families: ["friction", "drawIn", "bed", "elastic"],
  },
  {
    id: "time",
    title: "Time-dependent losses",
    asks: "What do creep, shrinkage and relaxation take until the stage that is checked?",
    families: ["creep", "shrinkage", "relaxation", "timeDependent"],
  },
  {
    id: "limits",
    title: "Limits",
    asks: "Which stresses are allowed at this stage for this member?",
    families: ["limits"],
  },
  {
    id: "stresses",
    title: "Check the stresses",
    asks: "Which stress has the fibre under moment and prestress, and how much of the limit is used?",
    families: ["loading", "stress"],
  },
  {
    id: "region",
    title: "Find force and eccentricity",
    asks: "Which force and eccentricity satisfy all stages at once?",
    families: ["region"],
    also: /_FOR_FIBRE_STRESS$|^KERN_DISTANCE$/,
  },
  {
    id: "bending",
    title: "Strength in bending",
    asks: "Which moment does the section resist, how ductile is it, and when does it crack?",
    families: ["bending"],
  },
  {
    id: "shear",
    title: "Strength in shear",
    asks: "What does the concrete carry, cracked or not, and which links does the rest need?",
    families: ["shear"],
    also: /^WEB_SHEAR_STRESS$|^PRINCIPAL_TENSION$/,
  },
  {
    id: "endZone",
    title: "End zones",
    asks: "Is the concrete at the anchorages strong enough, and which steel holds it together?",
    families: ["endZone"],
  },
  {
    id: "composite",
    title: "Composite members",
    asks: "What happens between and in two concretes of different age?",
    families: ["composite"],
    also: /^COMPOSITE_|^TOPPING_STRESS$/,
  },
  {
    id: "deflection",
    title: "Deflection and camber",
    asks: "How far does the member rise at release, and where does it end up after creep, shrinkage and load?",
    families: ["deflection"],
  },
  {
    id: "transmission",
    title: "Transmission and anchorage by bond",
    asks: "Over which length does the prestress build up at the end of a pre-tensioned member?",
    families: ["transmission"],
  },
  {
    id: "stressing",
    title: "Stressing on site",
    asks: "Which elongation is to be expected at the jack?",
    families: ["stressing"],
    also: /^BED_ELONGATION$|^DRAW_IN_L/,
  },
  {
    id: "materials",
    title: "Materials",
    asks: "Strength, modulus and class of concrete and prestressing steel.",
    families: ["materials"],
    also: /^FRICTION_COEFFICIENT_|^MINIMUM_GRADE_/,
  },
  {
    id: "workbook",
    title: "The workbook itself",
    asks: "What should be known about a call, and which version computes?",
    families: ["workbook"],
  },
];

const subjectOf = (f: WorksheetFunction): Family => (f.formula ?? f.spill)?.family ?? "workbook";

/** The functions of a task by subject, each once; those that serve from elsewhere last, under no subject. */
export function functionsOf(
  task: Task,
  functions: readonly WorksheetFunction[],
): readonly { readonly family?: Family; readonly functions: readonly WorksheetFunction[] }[] {
  const own = task.families.map((family) => ({ family, functions: functions.filter((f) => subjectOf(f) === family) }));
  const also = functions.filter((f) => task.also?.test(f.id) && !task.families.includes(subjectOf(f)));
  return [...own, { functions: also }].filter((group) => group.functions.length > 0);
}
