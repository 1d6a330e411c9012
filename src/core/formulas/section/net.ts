import { InputError } from "../../errors.ts";
import { choosing } from "../../choosing.ts";
import { stepwise, type Formula, type Steps } from "../../formula.ts";
import { as, choice, format, table, type Quantity } from "../../parameters.ts";
import { q } from "../../quantities/index.ts";
import { mechanics } from "../mechanics.ts";
import { anyProperty, changedProperty } from "./property.ts";

/** What is added to a section (or taken out, as a negative area) at a height, with its own second moment. */
export interface Addition {
  readonly area: number;
  readonly y: number;
  readonly own: number;
}
interface Section {
  readonly A: number;
  readonly y: number;
  readonly I: number;
}

export function withAdditions(section: Section, additions: readonly Addition[], parameter: string): Section {
  const A = additions.reduce((sum, a) => sum + a.area, section.A);
  if (A <= 0)
    throw new InputError(
      parameter,
      `${parameter} take away ${format(section.A - A)} mm²; it must be less than the area of the section, ${format(section.A)} mm²`,
    );
  const y = additions.reduce((sum, a) => sum + a.area * a.y, section.A * section.y) / A;
  const I = additions.reduce(
    (sum, a) => sum + a.own + a.area * (a.y - y) ** 2,
    section.I + section.A * (section.y - y) ** 2,
  );
  if (I <= 0)
    throw new InputError(
      parameter,
      `${parameter} take away more than the second moment of the section, ${format(section.I)} mm⁴; they must lie inside the section`,
    );
  return { A, y, I };
}

/** The second way: all moments about the soffit first, then back to the centroid. */
function fromSoffit(section: Section, additions: readonly Addition[]): Section {
  const A = section.A + additions.reduce((sum, a) => sum + a.area, 0);
  const S = section.A * section.y + additions.reduce((sum, a) => sum + a.area * a.y, 0);
  const J = section.I + section.A * section.y ** 2 + additions.reduce((sum, a) => sum + a.own + a.area * a.y ** 2, 0);
  return { A, y: S / A, I: J - S ** 2 / A };
}

const A = { symbol: "A'", unit: "mm²", text: "area", governing: "A' = A + \\sum a_i" } as const;
const y = {
  symbol: "y'",
  unit: "mm",
  text: "height of the centroid above the soffit",
  governing: "y' = \\frac{A\\,y_b + \\sum a_i y_i}{A'}",
} as const;
const I = {
  symbol: "I'",
  unit: "mm⁴",
  text: "second moment of area about its own centroid",
  governing: "I' = I + A (y_b - y')^2 + \\sum \\left[I_i + a_i (y_i - y')^2\\right]",
} as const;

/** Each function shows the steps that lead to it. */
const kinds = [
  { property: "AREA", pick: "A", steps: { A }, text: A.text, result: q.area },
  { property: "CENTROID", pick: "y", steps: { A, y }, text: y.text, result: q.centroidHeight },
  { property: "INERTIA", pick: "I", steps: { A, y, I }, text: I.text, result: q.secondMoment },
] as const satisfies readonly {
  readonly property: string;
  readonly pick: keyof Section;
  readonly steps: Steps;
  readonly text: string;
  readonly result: Quantity;
}[];

export type ChangedKind = (typeof kinds)[number];

/** The properties of a section with something added or taken out, each as a formula. */
export function changed(of: (kind: ChangedKind) => Formula): Readonly<Record<string, Formula>> {
  return Object.fromEntries(kinds.map((kind) => [kind.property, of(kind)]));
}
/** How the functions of such sections ask which property is wanted. */
export const wantedOfChanged = { family: "section", by: { property: changedProperty }, result: anyProperty } as const;
export const whyApart =
  "Net, transformed and composite sections are functions of their own: ducts, tendons and toppings are described by other columns.";

/** The steps with what a_i stands for, said in the first. */
function meaning(steps: Steps, a_i: string): Steps {
  return Object.fromEntries(
    Object.entries(steps).map(([name, step]) => [
      name,
      name === "A" && "governing" in step ? { ...step, governing: `${step.governing},\\quad a_i = ${a_i}` } : step,
    ]),
  );
}

export function shown(steps: Steps, section: Section): Record<string, number> {
  return Object.fromEntries(Object.keys(steps).map((name) => [name, section[name as keyof Section]]));
}

export function difference(
  pick: "A" | "y" | "I",
  found: number,
  section: Section,
  additions: readonly Addition[],
): number {
  const other = fromSoffit(section, additions);
  const scale =
    pick === "I"
      ? other.I + other.A * other.y ** 2
      : pick === "y"
        ? Math.abs(other.y) + Math.sqrt(other.I / other.A)
        : other.A;
  return (found - other[pick]) / scale;
}

export const base = { A: q.area, y_b: q.centroidHeight, I: q.secondMoment };
const ducts = table({
  key: "ducts",
  symbol: "ducts",
  text: "ducts",
  columns: { d: q.ductDiameter, y: q.heightAboveSoffit },
  minRows: 1,
});
const hole = ({ d, y }: { readonly d: number; readonly y: number }): Addition => ({
  area: (-Math.PI * d * d) / 4,
  y,
  own: (-Math.PI * d ** 4) / 64,
});

const netProperty = ({ pick, steps, text, result }: ChangedKind): Formula =>
  stepwise({
    id: "NET_SECTION",
    family: "section",
    summary: `Net section: ${text}, ducts taken out`,
    source: mechanics,
    params: { ...base, ducts },
    result: as(result, { text: `${text}, net of ducts` }),
    steps: meaning(steps, "-\\tfrac{\\pi}{4} d_i^2"),
    compute: (v) => shown(steps, withAdditions({ A: v.A, y: v.y_b, I: v.I }, v.ducts.map(hole), "ducts")),
    proof: (v, found) => difference(pick, found[pick]!, { A: v.A, y: v.y_b, I: v.I }, v.ducts.map(hole)),
    unpublished: "Parallel-axis rule; no published net section was found.",
  });

/** The section net of ducts, until they are grouted. */
export const netSection = choosing({
  ...wantedOfChanged,
  id: "NET_SECTION",
  summary: "Net section: area, centroid or second moment with the ducts taken out",
  notes: ["Ducts are round holes; their own second moment is taken out too.", whyApart],
  as: changed(netProperty),
  order: ["A", "y_b", "I", "ducts", "property"],
});

const tendons = table({
  key: "tendonsInSection",
  symbol: "tendons",
  text: "bonded tendons",
  columns: { A_p: q.bondedTendonArea, y: q.heightAboveSoffit },
  minRows: 1,
});
/** What a given section is, where steel is added to it. */
export const sectionBase = choice({
  key: "sectionBase",
  symbol: "base",
  text: "what the given section is",
  default: "NET",
  values: [
    { value: "NET", text: "concrete alone, ducts out: steel counts fully" },
    { value: "GROSS", text: "outline with the steel's place filled: steel counts with the ratio less one" },
  ],
});
interface Bonded {
  readonly tendons: readonly { readonly A_p: number; readonly y: number }[];
  readonly E_p: number;
  readonly E_c: number;
  readonly base: string;
}
const bonded = (v: Bonded): readonly Addition[] =>
  v.tendons.map(({ A_p, y }) => ({ area: A_p * (v.E_p / v.E_c - (v.base === "GROSS" ? 1 : 0)), y, own: 0 }));

const transformedProperty = ({ pick, steps, text, result }: ChangedKind): Formula =>
  stepwise({
    id: "TRANSFORMED_SECTION",
    family: "section",
    summary: `Transformed section: ${text}, bonded tendons counted by the ratio of moduli`,
    source: mechanics,
    params: { ...base, tendons, E_p: q.tendonModulus, E_c: q.elasticModulusConcrete, base: sectionBase },
    result: as(result, { text: `${text}, bonded steel included` }),
    steps: meaning(
      steps,
      "\\tfrac{E_p}{E_c} A_{p,i}\\ \\text{on the net section},\\ \\left(\\tfrac{E_p}{E_c} - 1\\right) A_{p,i}\\ \\text{on the gross}",
    ),
    compute: (v) => shown(steps, withAdditions({ A: v.A, y: v.y_b, I: v.I }, bonded(v), "tendons")),
    proof: (v, found) => difference(pick, found[pick]!, { A: v.A, y: v.y_b, I: v.I }, bonded(v)),
    unpublished: "Parallel-axis rule; no published transformed section was found.",
  });

/** The section with its bonded steel, in terms of concrete. */
export const transformedSection = choosing({
  ...wantedOfChanged,
  id: "TRANSFORMED_SECTION",
  summary: "Transformed section: area, centroid or second moment with bonded tendons by the ratio of moduli",
  notes: [
    "A, y_b and I are either of the concrete alone (NET: ducts and steel out) or of the outline with the steel's place filled (GROSS).",
    "Say which: gross values taken as net count the steel's place twice.",
    whyApart,
  ],
  as: changed(transformedProperty),
  order: ["A", "y_b", "I", "tendons", "E_p", "E_c", "property", "base"],
});
