import { skeletonOf, type Inputs, type InputCell, type InputValue, type Template } from "../../sheet/index.ts";
import { computed, propertiesOf, usualSection, type SectionType } from "./sections.ts";
import { sized } from "./sizing.ts";

/** The answers of the quick start; with method and standard, which choose the template, there are twelve. */
export interface Answers {
  readonly L: number;
  readonly section: SectionType;
  readonly h: number;
  readonly fck: number;
  readonly gs: number;
  readonly ql: number;
  /** Exposure to EN 1992-1-1, type of member to IS 1343. */
  readonly demand: string | number;
  readonly product: string;
  /** Tendons or rows of strands, and strands in each; absent: find them. */
  readonly tendons?: number;
  readonly strands?: number;
}

export interface QuickStart {
  readonly inputs: Inputs;
  /** Inputs that nobody answered: taken as said. */
  readonly assumed: ReadonlySet<string>;
  /** What "find it" proposes, in words; absent where tendons were given. */
  readonly proposal?: string;
}

const isPost = ({ id }: Template): boolean => id.startsWith("post");
const isEn = ({ id }: Template): boolean => id.includes("en1992");

/** Checks beyond the stresses are left to the full sheet. */
const lean: Inputs = { lifted: "NO", detailing: "NO", web: "NO", opinion: "NO", region: "NO", deflected: "NO" };
const mostTendons = 6;
const mostRows = 10;
const strandsInTendon = 12;
/** Of the strands of a row, and of its last ones from the sides of the section, mm. Common practice, no source. */
const apart = 50;
const fromSide = 50;
/** Clear distance kept between ducts, mm, and of the lowest tendon from the soffit. Common practice, no source. */
const between = 40;
const cover = 60;

interface Layout {
  readonly count: number;
  readonly strands: number;
}

function layoutFor(template: Template, total: number, width: number): Layout {
  const most = isPost(template) ? strandsInTendon : Math.max(1, Math.floor((width - 2 * fromSide) / apart) + 1);
  const count = Math.min(isPost(template) ? mostTendons : mostRows, Math.max(1, Math.ceil(total / most)));
  return { count, strands: Math.max(1, Math.ceil(total / count)) };
}

/** The jacking stress: a little below the standard's limit, rounded down to 10 MPa. */
function jackingStress(template: Template, product: string): number {
  const fpk = computed("TENDON_PRODUCT", [product, "TENSILE_STRENGTH"]);
  const limit = isEn(template)
    ? computed("TENDON_STRESS_LIMIT_EN1992_2004", [
        fpk,
        computed("TENDON_PRODUCT", [product, "PROOF_STRESS"]),
        "JACKING",
      ])
    : 0.76 * fpk;
  return Math.floor((0.96 * limit) / 10) * 10;
}

/** Strength at transfer over that at 28 days: what 14 days give, or 3 days of a rapid cement. */
const shareAtTransfer = (template: Template): number => (isEn(template) && !isPost(template) ? 0.58 : 0.75);

/** Ages, strengths and factors nobody is asked for. Common practice, no source: each is marked as assumed on the sheet. */
function usual(template: Template, { fck, demand, h }: Answers): Inputs {
  const atTransfer = Math.floor(shareAtTransfer(template) * fck);
  const own: Inputs = isEn(template)
    ? {
        exposure: demand,
        fckt: atTransfer,
        psi1: 0.5,
        psi2: 0.3,
        t0: isPost(template) ? 14 : 3,
        ...(!isPost(template) && { cement: "R" }),
      }
    : {
        memberType: demand,
        fci: Math.min(60, Math.max(isPost(template) ? 30 : 40, atTransfer)),
        t0: isPost(template) ? 14 : 7,
      };
  return {
    tg: 60,
    tq: 365,
    tBed: 24 * (isEn(template) ? 3 : 7) + 24,
    edge: Math.round(0.08 * h),
    ...own,
    ...(isPost(template) && { fcmFull: atTransfer }),
  };
}

/** Width of the section where the lowest tendons lie, mm. */
function bottomWidth({ section }: Answers, dimensions: Inputs): number {
  return Number(dimensions[{ RECTANGLE: "b", T: "bw", I: "bbot", BOX: "bbox" }[section]]);
}

function find(template: Template, answers: Answers, dimensions: Inputs, sigj: number): Layout & { readonly e: number } {
  const { A, I, yb } = propertiesOf(answers.section, dimensions);
  const fctm = isEn(template) ? computed("CONCRETE_TENSILE_STRENGTH_EN1992_2004", [answers.fck]) : 0;
  const strict = answers.demand !== "XC1" || !isEn(template);
  const { P, e } = sized({
    A,
    I,
    yb,
    h: answers.h,
    L: answers.L,
    g: computed("SELF_WEIGHT", [A, 25]),
    gs: answers.gs,
    q: answers.ql,
    psi1: 0.5,
    psi2: 0.3,
    fcTransfer: 0.6 * shareAtTransfer(template) * answers.fck,
    ftTransfer: -0.8 * fctm,
    fcService: (isEn(template) ? 0.6 : 0.33) * answers.fck,
    ftService: -fctm,
    fcPermanent: (isEn(template) ? 0.45 : 0.33) * answers.fck,
    ftPermanent: strict ? 0 : -fctm,
    lowest: Math.max(cover + 30, 0.08 * answers.h),
  });
  const area = computed("TENDON_PRODUCT", [answers.product, "AREA"]);
  return { ...layoutFor(template, Math.ceil((P * 1000) / (0.9 * sigj * area)), bottomWidth(answers, dimensions)), e };
}

/** Tendons one above the other, level at midspan, their ends spread round the centroid; the second follows the first. */
function tendonInputs({ count, strands }: Layout, e: number, yb: number, answers: Answers, sigj: number): Inputs {
  const steel = strands * computed("TENDON_PRODUCT", [answers.product, "AREA"]);
  const duct = Math.ceil(Math.sqrt((2.5 * steel * 4) / Math.PI) / 5) * 5;
  const step = duct + between;
  const all = <T>(value: T): readonly T[] => Array.from({ length: count }, () => value);
  const mid = Math.max(cover + duct / 2, yb - e - ((count - 1) * step) / 2);
  // A little below the centroid: in the middle of the room that ends have.
  const end = Math.max(mid, yb - 0.05 * answers.h - ((count - 1) * step) / 2);
  return {
    tendons: count,
    points: 3,
    strands: all(strands),
    duct: all(duct),
    sigj: all(sigj),
    end: all("LEFT"),
    Rlim: all(6),
    order: Array.from({ length: count }, (_, i) => i + 1),
    likeT: Array.from({ length: count }, (_, i) => (i === 0 ? null : 1)),
    lift: Array.from({ length: count }, (_, i) => i * step),
    cpL: [[0, 0.5, 1], ...Array.from({ length: count - 1 }, () => [null, null, null])],
    cpy: [
      [Math.round(end), Math.round(mid), Math.round(end)],
      ...Array.from({ length: count - 1 }, () => [null, null, null]),
    ],
    cpShape: all(["TO_LEVEL", "FROM_LEVEL", "LINE"]),
  };
}

function rowInputs({ count, strands }: Layout, e: number, yb: number, sigj: number, L: number): Inputs {
  const all = <T>(value: T): readonly T[] => Array.from({ length: count }, () => value);
  const lowest = Math.max(cover, Math.round(yb - e - (count - 1) * 25));
  return {
    rows: count,
    strands: all(strands),
    yMidIn: Array.from({ length: count }, (_, i) => lowest + 50 * i),
    sigj: all(sigj),
    sh: all(apart),
    members: 1,
    bedLength: Math.ceil(L + 5),
  };
}

const flatten = (value: InputValue | undefined): readonly InputValue[] =>
  Array.isArray(value) ? (value as readonly InputValue[]).flatMap(flatten) : value === undefined ? [] : [value];

/** What the invented example has for an input nobody answered and no rule gives: better stated and marked than missing. */
function fromExample(template: Template, cells: readonly InputCell[], inputs: Inputs): Inputs {
  const out: Record<string, InputValue> = {};
  for (const { id, of, spec, index } of cells) {
    if (index > 0 || id in inputs || spec.mayBeEmpty || spec.freeText || spec.default !== undefined) continue;
    const [first] = flatten(template.example.inputs[id]);
    if (first === undefined || first === null) continue;
    out[id] = of === 1 ? first : Array.from({ length: of }, () => first);
  }
  return out;
}

/** From a few answers to all inputs of a sheet: the rest is assumed, and said to be. Throws NoResult where nothing fits. */
export function quickStart(template: Template, answers: Answers): QuickStart {
  const dimensions = usualSection(answers.section, answers.h);
  const { yb } = propertiesOf(answers.section, dimensions);
  const sigj = jackingStress(template, answers.product);
  const found = answers.tendons === undefined ? find(template, answers, dimensions, sigj) : undefined;
  const layout = found ?? { count: answers.tendons!, strands: answers.strands ?? strandsInTendon };
  const e = found?.e ?? yb - 0.12 * answers.h;
  const steel = isPost(template)
    ? tendonInputs(layout, e, yb, answers, sigj)
    : rowInputs(layout, e, yb, sigj, answers.L);
  const answered: Inputs = {
    L: answers.L,
    section: answers.section,
    h: answers.h,
    fck: answers.fck,
    gs: answers.gs,
    ql: answers.ql,
    product: answers.product,
  };
  const shaping = new Set(template.shape.map(({ id }) => id));
  const leanHere = Object.fromEntries(Object.entries(lean).filter(([id]) => shaping.has(id)));
  const given: Inputs = { ...leanHere, ...usual(template, answers), ...dimensions, ...steel, ...answered };
  const shape = Object.fromEntries(Object.entries(given).filter(([id]) => shaping.has(id)));
  const { inputs: cells } = skeletonOf(template, shape);
  const known = new Set(cells.map(({ id }) => id));
  const placed = Object.fromEntries(Object.entries(given).filter(([id]) => known.has(id) || shaping.has(id)));
  const inputs: Inputs = { ...placed, ...fromExample(template, cells, placed) };
  const said = new Set([...Object.keys(answered), isEn(template) ? "exposure" : "memberType", "tendons", "rows"]);
  if (answers.tendons !== undefined) said.add("strands");
  const assumed = new Set(cells.map(({ id, spec }) => (spec.freeText || said.has(id) ? "" : id)).filter(Boolean));
  const what = isPost(template) ? "tendon" : "row";
  return {
    inputs,
    assumed,
    ...(found && {
      proposal:
        `${found.count} ${what}${found.count === 1 ? "" : "s"} of ${found.strands} ${answers.product}, ` +
        `stressed to ${sigj} MPa, e = ${Math.round(found.e)} mm at midspan`,
    }),
  };
}
