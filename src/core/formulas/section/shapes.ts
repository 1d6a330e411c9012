import { choosing } from "../../choosing.ts";
import { formula, stepwise, type Formula, type Limits, type Steps } from "../../formula.ts";
import { as, type Parameters, type Quantity, type Values } from "../../parameters.ts";
import { q } from "../../quantities/index.ts";
import { mechanics } from "../mechanics.ts";
import { anyProperty, oneCallForAll, sectionProperty } from "./property.ts";

/** One rectangle of a section as the engineer reads it; `minus` where it is cut out. */
interface Part {
  readonly width: string;
  readonly depth: string;
  /** Height of its middle above the soffit. */
  readonly middle: string;
  readonly minus?: true;
}
/** The same rectangle in numbers: width (negative where cut out), depth, height of its middle. */
type PartInNumbers = readonly [width: number, depth: number, middle: number];

interface Shape<P extends Parameters> {
  readonly id: string;
  readonly name: string;
  readonly params: P;
  readonly limits?: (values: Values<P>) => Limits<P>;
  readonly parts: readonly Part[];
  readonly inNumbers: (values: Values<P>) => readonly PartInNumbers[];
  /** Published sections exist for the shape's area, centroid and second moment. */
  readonly published?: true;
}

const texts = {
  area: "Area",
  centroid: "Height of the centroid above the soffit",
  inertia: "Second moment of area about the horizontal axis through the centroid",
  perimeter: "Drying perimeter",
};
const plain = "Geometry of rectangles; tests compare it with the polygon rule.";

type Properties = Readonly<Record<"AREA" | "CENTROID" | "INERTIA", Formula>>;

/** What the functions of the shapes have in common. */
function shapeOf(properties: Properties & { readonly PERIMETER: Formula }) {
  return {
    family: "section",
    notes: [ownArguments],
    by: { property: sectionProperty },
    ignored: oneCallForAll,
    as: properties,
    result: anyProperty,
  } as const;
}
const ownArguments = "Each shape has a function of its own, since each has other dimensions.";

const areaOf = (parts: readonly PartInNumbers[]): number => parts.reduce((sum, [b, t]) => sum + b * t, 0);
const centroidOf = (parts: readonly PartInNumbers[], A: number): number =>
  parts.reduce((sum, [b, t, y]) => sum + b * t * y, 0) / A;
const inertiaOf = (parts: readonly PartInNumbers[], y_b: number): number =>
  parts.reduce((sum, [b, t, y]) => sum + (b * t ** 3) / 12 + b * t * (y - y_b) ** 2, 0);

/** Area, centroid and second moment of a shape made of rectangles. */
function ofRectangles<const P extends Parameters>({
  id,
  name,
  params,
  limits,
  parts,
  inNumbers,
  published,
}: Shape<P>): Properties {
  const sum = (term: (part: Part) => string): string =>
    parts.map((part, i) => `${part.minus ? " - " : i > 0 ? " + " : ""}${term(part)}`).join("");
  const A = {
    symbol: "A",
    unit: "mm²",
    equation: sum(({ width, depth }) => `${width} * ${depth}`),
    text: "area",
  } as const;
  const y_b = {
    symbol: "y_b",
    unit: "mm",
    equation: `(${sum(({ width, depth, middle }) => `${width} * ${depth} * ${middle}`)}) / A`,
    text: "height of the centroid above the soffit",
  } as const;
  const own = sum(
    ({ width, depth, middle, minus }) =>
      `${width} * ${depth}^3 / 12 ${minus ? "-" : "+"} ${width} * ${depth} * (${middle} - y_b)^2`,
  );
  const I = {
    symbol: "I",
    unit: "mm⁴",
    equation: own,
    text: "each rectangle about the centroid of the section",
  } as const;
  const shared = {
    family: "section",
    source: mechanics,
    params,
    ...(limits && { limits }),
    ...(!published && { unpublished: plain }),
  } as const;
  const declare = <S extends Steps>(
    text: string,
    result: Quantity,
    steps: S,
    compute: (values: Values<P>) => { readonly [K in keyof S]: number },
  ): Formula =>
    stepwise({
      ...shared,
      id,
      summary: `${text} of ${name}`,
      result,
      steps,
      compute,
    });
  return {
    AREA: declare(texts.area, q.area, { A }, (v) => ({ A: areaOf(inNumbers(v)) })),
    CENTROID: declare(texts.centroid, q.centroidHeight, { A, y_b }, (v) => {
      const all = inNumbers(v);
      const area = areaOf(all);
      return { A: area, y_b: centroidOf(all, area) };
    }),
    INERTIA: declare(texts.inertia, q.secondMoment, { A, y_b, I }, (v) => {
      const all = inNumbers(v);
      const area = areaOf(all);
      const centroid = centroidOf(all, area);
      return { A: area, y_b: centroid, I: inertiaOf(all, centroid) };
    }),
  };
}

/** The outer surface of a shape. */
function perimeterOf<const P extends Parameters>(
  spec: Pick<Shape<P>, "id" | "name" | "params" | "limits"> & {
    readonly notes?: readonly string[];
    readonly equation: string;
    readonly compute: (values: Values<P>) => number;
  },
): Formula {
  const { id, name, ...rest } = spec;
  return formula<P>({
    ...rest,
    id,
    family: "section",
    summary: `${texts.perimeter} of ${name}: the outer surface`,
    source: mechanics,
    result: q.perimeter,
    unpublished: plain,
  });
}

const width = (symbol: string, text: string): Quantity => as(q.sectionWidth, { symbol, text });
const thickness = (symbol: string, text: string): Quantity => as(q.sectionThickness, { symbol, text });

const rectangleShape = {
  id: "RECTANGLE_SECTION",
  name: "a rectangle",
  params: { b: q.sectionWidth, h: q.sectionHeight },
};
const rectangleShared = {
  family: "section",
  source: mechanics,
  params: rectangleShape.params,
  unpublished: plain,
} as const;
const rectangleProperties = {
  AREA: formula({
    ...rectangleShared,
    id: "RECTANGLE_SECTION",
    summary: `${texts.area} of a rectangle`,
    result: q.area,
    equation: "b * h",
    compute: ({ b, h }) => b * h,
  }),
  CENTROID: formula({
    ...rectangleShared,
    id: "RECTANGLE_SECTION",
    summary: `${texts.centroid} of a rectangle`,
    result: q.centroidHeight,
    equation: "h / 2",
    compute: ({ h }) => h / 2,
  }),
  INERTIA: formula({
    ...rectangleShared,
    id: "RECTANGLE_SECTION",
    summary: `${texts.inertia} of a rectangle`,
    result: q.secondMoment,
    equation: "b * h^3 / 12",
    compute: ({ b, h }) => (b * h ** 3) / 12,
  }),
  PERIMETER: perimeterOf({ ...rectangleShape, equation: "2 * (b + h)", compute: ({ b, h }) => 2 * (b + h) }),
};
export const rectangleSection = choosing({
  ...shapeOf(rectangleProperties),
  id: "RECTANGLE_SECTION",
  summary: "Area, centroid, second moment or drying perimeter of a rectangle",
  order: ["b", "h", "property"],
});

const tShape = {
  id: "T_SECTION",
  name: "a T-section with the flange on top",
  params: {
    h: q.sectionHeight,
    b_f: width("b_f", "width of the flange"),
    t_f: thickness("t_f", "thickness of the flange"),
    b_w: width("b_w", "width of the web"),
  },
  limits: ({ h, b_f }: { readonly h: number; readonly b_f: number }) => ({
    t_f: { max: h, because: "the height h" },
    b_w: { max: b_f, because: "the flange width b_f" },
  }),
};
const tProperties = {
  ...ofRectangles({
    ...tShape,
    parts: [
      { width: "b_f", depth: "t_f", middle: "(h - t_f / 2)" },
      { width: "b_w", depth: "(h - t_f)", middle: "(h - t_f) / 2" },
    ],
    inNumbers: ({ h, b_f, t_f, b_w }) => [
      [b_f, t_f, h - t_f / 2],
      [b_w, h - t_f, (h - t_f) / 2],
    ],
  }),
  PERIMETER: perimeterOf({ ...tShape, equation: "2 * (h + b_f)", compute: ({ h, b_f }) => 2 * (h + b_f) }),
};
export const tSection = choosing({
  ...shapeOf(tProperties),
  id: "T_SECTION",
  summary: "Area, centroid, second moment or drying perimeter of a T-section with the flange on top",
  order: ["h", "b_f", "t_f", "b_w", "property"],
});

const iShape = {
  id: "I_SECTION",
  name: "an I-section",
  params: {
    h: q.sectionHeight,
    b_top: width("b_top", "width of the top flange"),
    t_top: thickness("t_top", "thickness of the top flange"),
    b_w: width("b_w", "width of the web"),
    b_bot: width("b_bot", "width of the bottom flange"),
    t_bot: thickness("t_bot", "thickness of the bottom flange"),
  },
  limits: ({
    h,
    b_top,
    b_bot,
    t_top,
  }: {
    readonly h: number;
    readonly b_top: number;
    readonly b_bot: number;
    readonly t_top: number;
  }) => ({
    t_top: { max: h, because: "the height h" },
    t_bot: { max: h - t_top, because: "the height below the top flange" },
    b_w: { max: Math.min(b_top, b_bot), because: "the narrower flange" },
  }),
};
const iProperties = {
  ...ofRectangles({
    ...iShape,
    parts: [
      { width: "b_top", depth: "t_top", middle: "(h - t_top / 2)" },
      { width: "b_w", depth: "(h - t_top - t_bot)", middle: "(h - t_top + t_bot) / 2" },
      { width: "b_bot", depth: "t_bot", middle: "t_bot / 2" },
    ],
    inNumbers: ({ h, b_top, t_top, b_w, b_bot, t_bot }) => [
      [b_top, t_top, h - t_top / 2],
      [b_w, h - t_top - t_bot, (h - t_top + t_bot) / 2],
      [b_bot, t_bot, t_bot / 2],
    ],
    published: true,
  }),
  PERIMETER: perimeterOf({
    ...iShape,
    equation: "2 * (h + b_top + b_bot - b_w)",
    compute: ({ h, b_top, b_bot, b_w }) => 2 * (h + b_top + b_bot - b_w),
  }),
};
export const iSection = choosing({
  ...shapeOf(iProperties),
  id: "I_SECTION",
  summary: "Area, centroid, second moment or drying perimeter of an I-section",
  order: ["h", "b_top", "t_top", "b_w", "b_bot", "t_bot", "property"],
});

const boxShape = {
  id: "BOX_SECTION",
  name: "a box with one rectangular void",
  params: {
    b: q.sectionWidth,
    h: q.sectionHeight,
    t_top: thickness("t_top", "thickness of the top slab"),
    t_bot: thickness("t_bot", "thickness of the bottom slab"),
    t_w: thickness("t_w", "thickness of each web"),
  },
  limits: ({ b, h, t_top }: { readonly b: number; readonly h: number; readonly t_top: number }) => ({
    t_top: { max: h, because: "the height h" },
    t_bot: { max: h - t_top, because: "the height below the top slab" },
    t_w: { max: b / 2, because: "half the width b" },
  }),
};
const boxProperties = {
  ...ofRectangles({
    ...boxShape,
    parts: [
      { width: "b", depth: "h", middle: "h / 2" },
      { width: "(b - 2 * t_w)", depth: "(h - t_top - t_bot)", middle: "(h - t_top + t_bot) / 2", minus: true },
    ],
    inNumbers: ({ b, h, t_top, t_bot, t_w }) => [
      [b, h, h / 2],
      [2 * t_w - b, h - t_top - t_bot, (h - t_top + t_bot) / 2],
    ],
  }),
  PERIMETER: perimeterOf({
    ...boxShape,
    params: {
      ...boxShape.params,
      s: as(q.share, { text: "share of the inner surface that dries: 0 none, 1 all of it", default: 0 }),
    },
    notes: ["The inner surface counts with the share s, none of it where s is left out."],
    equation: "2 * (b + h) + s * 2 * (b - 2 * t_w + h - t_top - t_bot)",
    compute: ({ b, h, t_top, t_bot, t_w, s }) => 2 * (b + h) + s * 2 * (b - 2 * t_w + h - t_top - t_bot),
  }),
};
export const boxSection = choosing({
  ...shapeOf(boxProperties),
  id: "BOX_SECTION",
  summary: "Area, centroid, second moment or drying perimeter of a box with one rectangular void",
  order: ["b", "h", "t_top", "t_bot", "t_w", "property", "s"],
});
