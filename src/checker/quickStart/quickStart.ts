import {
  expand,
  isEn,
  isPost,
  lockedValues,
  withoutLocked,
  type Inputs,
  type InputCell,
  type InputValue,
  type Template,
} from "../../sheet/index.ts";
import { computed, propertiesOf, sectionSaid, sheetSection, usualSection, type SectionType } from "./sections.ts";
import { NoResult } from "../../core/index.ts";
import { eccentricities, loosened, memberOf, type Member } from "./member.ts";
import { isBar, kindInputs, kindOf, radiusOfBar, refuseSteel } from "./steelKind.ts";
import { sizedBy } from "./sizedBy.ts";
import { sized, type ToSize } from "./sizing.ts";
import {
  deviatorsAt,
  equalRows,
  spacingOf,
  strandLayout,
  type Search,
  type StrandRow,
  type Within,
} from "./strandLayout.ts";
import { Trials, type Failing, type Trial } from "./trial.ts";

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
  /** Tendons or rows of strands, and strands in each; absent: find them. A bar is a tendon by itself. */
  readonly tendons?: number;
  readonly strands?: number;
  /** What a sheet for choosing and sizing has found. */
  readonly sizing?: Sizing;
}

/** Numbers of a sheet for choosing and sizing that go to a stress check. */
export interface Sizing {
  /** Strands in all; of a post-tensioned member in so many tendons. */
  readonly strands: number;
  readonly tendons: number;
  /** Eccentricity at midspan, mm. */
  readonly e: number;
  /** Stress at the jack, MPa. */
  readonly sigj: number;
  readonly dimensions: Inputs;
  /** Dimensions and further inputs that somebody typed there. */
  readonly said: ReadonlySet<string>;
  /** Further inputs of the stress check. */
  readonly inputs: Inputs;
  /** Inputs that each tendon has alike. */
  readonly eachTendon?: Inputs;
}

export interface QuickStart {
  readonly inputs: Inputs;
  /** Inputs that nobody answered: taken as said. */
  readonly assumed: ReadonlySet<string>;
  /** Inputs that the program found itself. */
  readonly proposed: ReadonlySet<string>;
  /** What "find it" proposes, in words; absent where tendons and strands were given. */
  readonly proposal?: string;
  /** What kept the search from proposing less, with the input behind it and where it stands; absent where nothing passes. */
  readonly sizedBy?: string;
  /** Which checks of the sheet the proposal fails, with the section assumed; absent where it fails none. */
  readonly unmet?: string;
}

/** Whether a template asks all that the few answers are for; one of an office may have left some of it out. */
export function hasQuickStart(template: Template): boolean {
  const asked = new Set([
    ...template.shape.map(({ id }) => id),
    ...template.blocks.flatMap(({ items }) =>
      items.flatMap((item): readonly string[] => {
        if ("table" in item) return item.columns.flatMap(({ id, input }) => (input ? [id] : []));
        return "id" in item && item.input ? [item.id] : [];
      }),
    ),
  ]);
  const steel = isPost(template) ? ["tendons", "points", "cpL", "cpy"] : ["rows", "yMidIn"];
  const demand = isEn(template) ? "exposure" : "memberType";
  return ["L", "section", "h", "fck", "gs", "ql", "product", "strands", "sigj", demand, ...steel].every((id) =>
    asked.has(id),
  );
}

/**
 * Lifting and detailing are left to the full sheet. The web is checked, since the sheet of strength needs its stresses:
 * a tenth more cells.
 */
const lean: Inputs = { lifted: "NO", detailing: "NO", web: "YES" };
const mostTendons = 6;
const mostRows = 10;
const strandsInTendon = 12;
/** Where six tendons of that size do not suffice. */
const mostInTendon = 22;
/** Clear distance kept between ducts, mm, and of the lowest tendon from the soffit. Common practice, no source. */
const between = 40;
const cover = 60;

interface Layout {
  readonly count: number;
  readonly strands: number;
}

function layoutFor(template: Template, total: number, answers: Answers, dimensions: Inputs): Layout {
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
function usual(template: Template, answers: Answers): Inputs {
  const { fck, h } = answers;
  const atTransfer = Math.floor(shareAtTransfer(template) * fck);
  const own: Inputs = isEn(template)
    ? {
        fckt: atTransfer,
        psi1: 0.5,
        psi2: 0.3,
        t0: isPost(template) ? 14 : 3,
        ...(!isPost(template) && { cement: "R" }),
      }
    : {
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
    ...kindInputs(template, answers),
  };
}

/** Width of the section where the lowest tendons lie, mm. */
function bottomWidth({ section }: Answers, dimensions: Inputs): number {
  return Number(dimensions[{ RECTANGLE: "b", T: "bw", DOUBLE_TEE: "bw", I: "bbot", BOX: "bbox" }[section]]);
}

/**
 * A first guess at force and eccentricity, from which a trial sheet is built; where no force keeps all limits, one that
 * carries the permanent loads.
 */
function guessed(template: Template, answers: Answers, dimensions: Inputs): { readonly P: number; readonly e: number } {
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

function ductFor(strands: number, product: string): number {
  const steel = strands * computed("TENDON_PRODUCT", [product, "AREA"]);
  return Math.ceil(Math.sqrt((2.5 * steel * 4) / Math.PI) / 5) * 5;
}

/** Eccentricity at the ends over the depth. Common practice, no source. */
const endBelow = 0.05;

/** In a box the tendons lie in the two webs, two at a height. */
const side = ({ section }: Answers): number => (section === "BOX" ? 2 : 1);

/** Ducts side by side at a height: in a box one in each web; bars as many as the web has room for, others one. */
function abreast(strands: number, answers: Answers, dimensions: Inputs): number {
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
function stack(
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
function tendonInputs(
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

/** A line of usual length, m, its units as far apart as a gap and its ends free for anchorages. Common practice, no source. */
const usualBed = 60;
const bedGap = 0.5;
const bedEnds = 4;

/** A bed and the units on it; longer than usual only where not even one unit fits. */
function bedInputs(L: number): Inputs {
  const bedLength = Math.max(usualBed, 10 * Math.ceil((L + bedEnds) / 10));
  return { bedLength, members: Math.min(100, computed("UNITS_ON_LINE", [bedLength, L, bedGap, bedEnds])) };
}

function rowInputs(rows: readonly StrandRow[], sigj: number, L: number, apart: number): Inputs {
  const all = <T>(value: T): readonly T[] => rows.map(() => value);
  const raised = rows.some(({ yMid, yEnd }) => yMid !== yEnd);
  return {
    rows: rows.length,
    deflected: raised ? "YES" : "NO",
    strands: rows.map(({ n }) => n),
    yMidIn: rows.map(({ yMid }) => yMid),
    ...(raised && { yEndIn: rows.map(({ yEnd }) => yEnd), devL: deviatorsAt }),
    debond: rows.map(({ debond }) => debond),
    sigj: all(sigj),
    sh: all(apart),
    // What reaches further is checked in storage, of which the questions ask nothing.
    overU: 0,
    ...bedInputs(L),
  };
}

/** Rows one above the other round an eccentricity. */
function stackedRows({ count, strands }: Layout, e: number, yb: number, answers: Answers): readonly StrandRow[] {
  const { apart, fromFace } = spacingOf(kindOf(answers));
  const lowest = Math.max(fromFace, Math.round(yb - e - ((count - 1) * apart) / 2));
  return Array.from({ length: count }, (_, i) => {
    const y = lowest + apart * i;
    return { n: strands, yMid: y, yEnd: y, debond: 0 };
  });
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

/** Everything that is the same for every layout of the tendons. */
interface Task {
  readonly template: Template;
  readonly trials: Trials;
  readonly answers: Answers;
  readonly dimensions: Inputs;
  readonly sigj: number;
}

interface Assembled {
  readonly inputs: Inputs;
  readonly assumed: ReadonlySet<string>;
}

/** What each tendon has alike, as a list over the tendons. */
function forEach({ strands }: Inputs, alike: Inputs = {}): Inputs {
  const tendons = Array.isArray(strands) ? strands.length : 0;
  return Object.fromEntries(
    Object.entries(alike).map(([id, value]) => [id, Array.from({ length: tendons }, () => value) as InputValue]),
  );
}

/** All inputs of the sheet with these tendons, and which of them nobody answered. */
function assembled({ template, trials, answers, dimensions }: Task, steel: Inputs): Assembled {
  const said = sectionSaid(answers.section);
  const answered: Inputs = {
    L: answers.L,
    section: sheetSection(answers.section),
    ...(said !== undefined && { member: said }),
    h: answers.h,
    fck: answers.fck,
    gs: answers.gs,
    ql: answers.ql,
    product: answers.product,
    [isEn(template) ? "exposure" : "memberType"]: answers.demand,
  };
  const shaping = new Set(template.shape.map(({ id }) => id));
  const given: Inputs = {
    ...shapeOnly(template, lean),
    ...withoutLocked(template, usual(template, answers)),
    ...dimensions,
    ...steel,
    ...answered,
    ...answers.sizing?.inputs,
    ...forEach(steel, answers.sizing?.eachTendon),
  };
  const { inputs: cells } = trials.skeleton(given);
  const known = new Set(cells.map(({ id }) => id));
  const placed = Object.fromEntries(Object.entries(given).filter(([id]) => known.has(id) || shaping.has(id)));
  const inputs: Inputs = { ...placed, ...fromExample(template, cells, placed) };
  const confirmed = new Set([...Object.keys(answered), ...lockedValues(template).keys()]);
  if (answers.tendons !== undefined && answers.strands !== undefined) confirmed.add("strands");
  for (const id of answers.sizing?.said ?? []) confirmed.add(id);
  const assumed = new Set(cells.map(({ id, spec }) => (spec.freeText || confirmed.has(id) ? "" : id)).filter(Boolean));
  return { inputs, assumed };
}

/** A layout of tendons or strands: its inputs, and in words. */
interface Steel {
  readonly inputs: Inputs;
  readonly strands: number;
  /** To compare layouts by. */
  readonly cost: number;
  readonly words: string;
}

function tendonSteel({ answers, dimensions, sigj }: Task, layout: Layout, e: number): Steel {
  const { yb } = propertiesOf(answers.section, dimensions);
  const { count, strands } = layout;
  return {
    inputs: tendonInputs(layout, e, yb, answers, dimensions, sigj),
    strands: count * strands,
    cost: costOf(layout),
    words: isBar(answers)
      ? `${count} bar${count === 1 ? "" : "s"} ${answers.product}, straight, each in a duct of its own, ` +
        `stressed to ${sigj} MPa, e = ${Math.round(e)} mm`
      : `${count} tendon${count === 1 ? "" : "s"} of ${strands} ${answers.product}, stressed to ${sigj} MPa, ` +
        `e = ${Math.round(e)} mm at midspan`,
  };
}

function rowSteel({ answers, dimensions, sigj }: Task, rows: readonly StrandRow[]): Steel {
  const { yb } = propertiesOf(answers.section, dimensions);
  const strands = rows.reduce((sum, { n }) => sum + n, 0);
  const e = yb - rows.reduce((sum, { n, yMid }) => sum + n * yMid, 0) / strands;
  const debonded = rows.filter(({ debond }) => debond > 0);
  return {
    inputs: rowInputs(rows, sigj, answers.L, spacingOf(kindOf(answers)).apart),
    strands,
    cost: strands,
    words:
      `${strands} ${answers.product} in ${rows.length} row${rows.length === 1 ? "" : "s"}, stressed to ${sigj} MPa, ` +
      `e = ${Math.round(e)} mm at midspan` +
      (debonded[0]
        ? `, ${debonded.reduce((sum, { n }) => sum + n, 0)} debonded for ${debonded[0].debond} m at each end`
        : "") +
      (rows.some(({ yMid, yEnd }) => yMid !== yEnd) ? ", deflected" : ""),
  };
}

/** Stress that a tendon in one web of a box adds until its partner is stressed, MPa: about what sections of usual proportions have. */
const oneSided = 1;
/** Distance kept from the limits while stressing, MPa: what is stressed then varies more along the member. */
const sparing = 0.2;

/** Shares of the moment and of the drape at midspan and at places towards the ends; a straight bar pulls as low there. */
const alongSpan = [1, 0.75, 0.5];
const alongBar = [...alongSpan, 0];

/**
 * Whether the limits hold between the stressing of one tendon and the next, when the uppermost are stressed first: with
 * none of the member's weight, which formwork may still carry, and with as much of it as the prestress can lift.
 * `kept`: distance from the limits, MPa.
 */
function holdsWhileStressed(
  task: Task,
  member: Member,
  trial: Trial,
  layout: Layout,
  e: number,
  kept: number,
): boolean {
  const [fc, ft] = [Math.min(...trial.numbers("utFc")), Math.max(...trial.numbers("utFt"))];
  // A limit that is missing is no limit yet.
  if (ft === 0) return true;
  const factors = [...trial.numbers("rsup"), ...trial.numbers("rinf")];
  const { lifts } = stack(layout, task.answers, task.dimensions);
  const bar = isBar(task.answers);
  const beside = abreast(layout.strands, task.answers, task.dimensions);
  const mean = (of: readonly number[]): number => of.reduce((sum, one) => sum + one, 0) / of.length;
  const atEnd = endBelow * member.h;
  return lifts.slice(1).every((_, i) => {
    const stressed = i + 1;
    const force = layout.strands * stressed * member.perStrand;
    const higher = mean(lifts.slice(-stressed)) - mean(lifts);
    const lifted = Math.max(0, (2 * force * (e - higher)) / 1000);
    const spare = kept + (stressed % beside !== 0 ? oneSided : 0);
    return (bar ? alongBar : alongSpan).every((share) => {
      const here = (bar ? e : atEnd + (e - atEnd) * share) - higher;
      const weights = [0, Math.min(member.selfWeightMoment * share, lifted)];
      const conditions = factors.flatMap((r) => weights.map((M) => ({ M, r, fc: fc - spare, ft: ft + spare })));
      const [from, to] = eccentricities(member, force, conditions);
      return here >= from && here <= to;
    });
  });
}

/** From the middle outwards: there neither loads nor losses that differ a little pass a limit. */
const outwards = [0.5, 0.35, 0.65, 0.2, 0.8, 0.05, 0.95];

/** What a layout costs, in strands: a tendon's anchorages count, and one that needs a large jack more. Common practice, no source. */
const costOf = ({ count, strands }: Layout): number => count * (strands + 2 + (strands > strandsInTendon ? 4 : 0));

/** Tendons of the same sizes as close as this, mm, are the same proposal: their sheets would say the same. */
const alike = 5;
/** So many proposals are computed on their own sheets before the best of them is given. */
const mostTries = 10;
/** So many of them from the cheapest up; after that any that was not computed yet. */
const cheapestFirst = 5;
/** So many configurations are laid out, which takes longer than to compute ten sheets of one of them. */
const mostShapes = 4;

/** What was computed already, and is passed over. */
class Tried {
  readonly #steel: Steel[] = [];
  readonly #shapes = new Set<string>();

  constructor(private readonly template: Template) {}

  get count(): number {
    return this.#steel.length;
  }

  /** Whether further configurations were left out of the search. */
  get leavesOut(): boolean {
    return this.#shapes.size >= mostShapes;
  }

  add(steel: Steel): void {
    this.#steel.push(steel);
    this.laidOut(steel);
  }

  laidOut(steel: Steel): void {
    this.#shapes.add(this.#shapeOf(steel));
  }

  has(steel: Steel): boolean {
    if (this.leavesOut && !this.#shapes.has(this.#shapeOf(steel))) return true;
    const sizes = (of: Steel): string => JSON.stringify([of.inputs["strands"], of.inputs["debond"]]);
    const heights = ({ inputs }: Steel): readonly number[] =>
      flatten([inputs["cpy"] ?? null, inputs["yMidIn"] ?? null, inputs["yEndIn"] ?? null] as InputValue).map(Number);
    const own = heights(steel);
    return this.#steel.some(
      (one) => sizes(one) === sizes(steel) && heights(one).every((y, i) => Math.abs(y - (own[i] ?? 0)) < alike),
    );
  }

  #shapeOf({ inputs }: Steel): string {
    return JSON.stringify(shapeOnly(this.template, inputs));
  }
}

/**
 * The cheapest tendons with at least so many strands in all whose force and eccentricity keep the limits at midspan, of
 * all stages and while stressed.
 */
function tendonsFor(
  task: Task,
  member: Member,
  trial: Trial,
  kept: number,
  { atLeast, fewest }: { readonly atLeast: number; readonly fewest: number },
  tried: Tried,
): Steel | undefined {
  const { answers, dimensions } = task;
  const bar = isBar(answers);
  // A straight bar is as low at the ends, where no moment helps.
  const places = bar ? [0, member.L / 4, member.L / 2] : [member.L / 2];
  const conditions = places.flatMap((x) => member.conditionsAt(x));
  const fitting = (layout: Layout): Steel | undefined => {
    const { lowest } = stack(layout, answers, dimensions);
    const [from, to] = eccentricities(member, layout.count * layout.strands * member.perStrand, conditions);
    const [least, most] = [Math.max(from, 0), Math.min(to, member.yb - lowest)];
    if (least > most) return undefined;
    for (const part of outwards) {
      const e = least + part * (most - least);
      if (!holdsWhileStressed(task, member, trial, layout, e, kept)) continue;
      const steel = tendonSteel(task, layout, e);
      if (!tried.has(steel)) return steel;
    }
    return undefined;
  };
  const sides = side(answers);
  const each = bar ? 1 : answers.strands;
  let best: Steel | undefined;
  for (
    let count = answers.tendons ?? Math.max(sides, fewest);
    count <= (answers.tendons ?? mostTendons);
    count += sides
  )
    for (let strands = Math.max(each ?? 1, Math.ceil(atLeast / count)); strands <= (each ?? mostInTendon); strands++) {
      const layout = { count, strands };
      const cost = costOf(layout);
      if (best && cost >= best.cost) break;
      const steel = fitting(layout);
      if (steel) best = steel;
    }
  return best;
}

const whileStressing: ReadonlySet<string> = new Set(["uStepC", "uStepT"]);
/**
 * By how much the limits are loosened, MPa, to look for the next proposal where no more keeps them: what a sheet
 * computed with other steel says of losses is not yet what its own sheet will say.
 */
const loosening = [0, 0.15, 0.4, 0.8, 1.5, 2.5];

interface Found {
  readonly steel: Steel;
  readonly failing: readonly Failing[];
  /** How many proposals were computed. */
  readonly tries: number;
  /** Nothing else comes near the limits: all possibilities are used up. */
  readonly usedUp: boolean;
  /** What kept the search from a smaller proposal; absent where none passes. */
  readonly sizedBy?: string;
}

/**
 * Tendons that satisfy the checks of the sheet they are for. Limits, losses and the force of a strand are taken from a
 * trial sheet; what is proposed is computed on its own sheet, and the next one is tried where a check fails there.
 */
function found(task: Task): Found {
  const { template, trials, answers, dimensions, sigj } = task;
  const { yb } = propertiesOf(answers.section, dimensions);
  const { P, e } = guessed(template, answers, dimensions);
  const area = computed("TENDON_PRODUCT", [answers.product, "AREA"]);
  const layout = layoutFor(template, Math.ceil((P * 1000) / (0.9 * sigj * area)), answers, dimensions);
  const post = isPost(template);
  const trialOf = (of: Steel): Trial => trials.with(assembled(task, of.inputs).inputs);
  let steel = post ? tendonSteel(task, layout, e) : rowSteel(task, stackedRows(layout, e, yb, answers));
  let trial = trialOf(steel);
  const guess = { steel, failing: trial.failing };
  let best: Pick<Found, "steel" | "failing"> | undefined;
  const tried = new Tried(template);
  tried.laidOut(steel);
  let usedUp = false;
  let [atLeast, fewest] = [1, 1];
  while (tried.count < mostTries) {
    const member = memberOf(trial, steel.strands, post ? "P0" : "Pact1", answers.h, answers.L);
    const kept = sparing * (1 + 2 * Math.min(tried.count, cheapestFirst));
    const next = firstOf(loosening, (by) => {
      const loose = loosened(member, by);
      return post
        ? tendonsFor(task, loose, trial, kept - by, { atLeast, fewest }, tried)
        : rowsFor(task, loose, trial, atLeast, tried);
    });
    if (!next) {
      if (atLeast > 1) {
        atLeast = 1;
        continue;
      }
      usedUp = !tried.leavesOut && fewest === 1;
      break;
    }
    steel = next;
    tried.add(steel);
    trial = trialOf(steel);
    const { failing } = trial;
    if (!best || failing.length < best.failing.length) best = { steel, failing };
    if (failing.length === 0) break;
    // Where steps of stressing fail: further from their limits, and not one web of a box after the other; else more strands.
    if (tried.count >= cheapestFirst) atLeast = 1;
    else if (!failing.some(({ id }) => whileStressing.has(id))) atLeast = steel.strands + 1;
    else if (steel.inputs["tendons"] === side(answers)) fewest = 2 * side(answers);
  }
  const tries = Math.max(1, tried.count);
  if (best?.failing.length !== 0) return { ...(best ?? guess), tries, usedUp };
  // What would be proposed if nothing had to hold between the stressing of one tendon and the next.
  const member = memberOf(trial, steel.strands, post ? "P0" : "Pact1", answers.h, answers.L);
  const free = post
    ? tendonsFor(task, member, trial, -Infinity, { atLeast: 1, fewest: 1 }, new Tried(template))
    : undefined;
  const fewer = oneFewer(steel);
  return {
    ...best,
    tries,
    usedUp,
    sizedBy: sizedBy({
      trial,
      ...(fewer && { fewer: { ...fewer, failing: trialOf(fewer).failing } }),
      ...(free && free.cost < steel.cost && { unlessStressed: free.words }),
    }),
  };
}

/** The same layout with a strand fewer in each tendon, or in the fullest row; undefined where another layout would follow. */
function oneFewer(steel: Steel): (Steel & { readonly change: string }) | undefined {
  const strands = steel.inputs["strands"] as readonly number[];
  const most = Math.max(...strands);
  if (most < 2) return undefined;
  if (steel.inputs["rows"] === undefined) {
    const less = strands.map((n) => n - 1);
    return { ...steel, inputs: { ...steel.inputs, strands: less }, change: "one strand fewer in each tendon" };
  }
  const at = strands.lastIndexOf(most);
  const less = strands.map((n, i) => (i === at ? n - 1 : n));
  return { ...steel, inputs: { ...steel.inputs, strands: less }, change: `one fewer in row ${at + 1}` };
}

function firstOf<T, R>(among: readonly T[], of: (one: T) => R | undefined): R | undefined {
  for (const one of among) {
    const result = of(one);
    if (result !== undefined) return result;
  }
  return undefined;
}

function rowsFor(task: Task, member: Member, trial: Trial, atLeast: number, tried: Tried): Steel | undefined {
  const full = Math.max(...trial.numbers("lpt1")) / 1000;
  const { answers, dimensions } = task;
  const within: Within = { section: answers.section, dimensions, spacing: spacingOf(kindOf(answers)) };
  const isTried = (rows: readonly StrandRow[]): boolean => tried.has(rowSteel(task, rows));
  const search: Search = { atLeast, isTried };
  const given = { rows: answers.tendons, each: answers.strands };
  const rows =
    given.rows === undefined && given.each === undefined
      ? strandLayout(member, within, full, search)
      : equalRows(member, within, full, given, search);
  return rows && rowSteel(task, rows);
}

/** "bf = 1650, tf = 250, bw = 410 mm": the section that was assumed. */
const sectionWords = (dimensions: Inputs): string =>
  `${Object.entries(dimensions)
    .map(([id, value]) => `${id} = ${String(value)}`)
    .join(", ")} mm`;

/** What was typed and bound the search; empty where nothing was. */
function typedWords({ tendons, strands }: Answers): string {
  if (tendons === undefined && strands === undefined) return "";
  const count = tendons === undefined ? "" : `${tendons} of them`;
  const each = strands === undefined ? "" : `${strands} in each`;
  return ` and ${[count, each].filter(Boolean).join(", ")}`;
}

/** Trial sheets of a template, which its later quick starts use again. */
const trialsKept = new WeakMap<Template, Trials>();

function trialsOf(template: Template): Trials {
  const kept = trialsKept.get(template) ?? new Trials(template);
  trialsKept.set(template, kept);
  return kept;
}

/** Long enough for what was typed meanwhile to be shown. */
const pause = (): Promise<void> => new Promise((next) => setTimeout(next, 60));

/** Numbers of tendons, or rows of strands, that most members have; the likeliest first. */
const usualCounts = [2, 1, 3, 4];

/**
 * Lays out and reads the sheets of a template in its usual configurations while its questions are still being answered,
 * in steps between which the page lives on; until the signal says that another section is asked for.
 */
export async function prepareQuickStart(template: Template, section: SectionType, signal?: AbortSignal): Promise<void> {
  const trials = trialsOf(template);
  const rows = usualCounts.flatMap((count) => ["NO", "YES"].map((deflected) => ({ rows: count, deflected })));
  const steel: readonly Inputs[] = isPost(template) ? usualCounts.map((tendons) => ({ tendons, points: 3 })) : rows;
  for (const layout of steel) {
    const shape = shapeOnly(template, { ...lean, section: sheetSection(section), ...layout });
    const steps = [() => expand(template, shape), () => trials.prepare(shape), () => trials.with(shape)];
    for (const step of steps) {
      await pause();
      if (signal?.aborted) return;
      step();
    }
  }
}

/** Those inputs that decide which rows there are. */
function shapeOnly({ shape }: Template, inputs: Inputs): Inputs {
  const shaping = new Set(shape.map(({ id }) => id));
  return Object.fromEntries(Object.entries(inputs).filter(([id]) => shaping.has(id)));
}

/** Tendons or rows of strands as a sheet for choosing and sizing has found them. */
function sizedSteel(task: Task, { strands, tendons, e }: Sizing): Steel {
  const { template, answers, dimensions } = task;
  if (isPost(template)) return tendonSteel(task, { count: tendons, strands: Math.ceil(strands / tendons) }, e);
  const layout = layoutFor(template, strands, answers, dimensions);
  return rowSteel(task, stackedRows(layout, e, propertiesOf(answers.section, dimensions).yb, answers));
}

/** From a few answers to all inputs of a sheet: the rest is assumed, and said to be. */
export function quickStart(template: Template, answers: Answers): QuickStart {
  refuseSteel(template, answers);
  const { sizing } = answers;
  const dimensions = sizing?.dimensions ?? usualSection(answers.section, answers.h);
  const sigj = sizing?.sigj ?? jackingStress(template, answers.product);
  const task: Task = { template, trials: trialsOf(template), answers, dimensions, sigj };
  if (sizing) {
    const { inputs, words } = sizedSteel(task, sizing);
    return { ...assembled(task, inputs), proposed: new Set(["strands"]), proposal: words };
  }
  if (answers.tendons !== undefined && answers.strands !== undefined && !isBar(answers)) {
    const { yb } = propertiesOf(answers.section, dimensions);
    const layout = { count: answers.tendons, strands: answers.strands };
    const e = yb - 0.12 * answers.h;
    const steel = isPost(template) ? tendonSteel(task, layout, e) : rowSteel(task, stackedRows(layout, e, yb, answers));
    return { ...assembled(task, steel.inputs), proposed: new Set() };
  }
  const { steel, failing, tries, usedUp, sizedBy: reason } = found(task);
  const { inputs, assumed } = assembled(task, steel.inputs);
  return {
    inputs,
    assumed,
    proposed: new Set(["strands"]),
    proposal: steel.words,
    ...(reason !== undefined && { sizedBy: reason }),
    ...(failing.length > 0 && {
      unmet:
        `No ${isBar(answers) ? "straight bars" : "tendons"} were found that keep all limits with the section assumed ` +
        `(${sectionWords(dimensions)})${typedWords(answers)}: ` +
        `${tries === 1 ? "one arrangement was" : `${tries} arrangements were`} computed on the sheet, and ` +
        `${tries === 1 ? "it fails" : "this one fails least"}: ` +
        `${failing.map(({ description, where }) => `${description} (${where})`).join("; ")}. ` +
        (usedUp ? `No other comes within ${loosening.at(-1)} MPa of all limits. ` : "") +
        "Change the section, the concrete or the loads there, or answer with another depth.",
    }),
  };
}
