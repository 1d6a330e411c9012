import fc from "fast-check";
import {
  inForce,
  InputError,
  read,
  readFactor,
  type Argument,
  type Bounds,
  type Cell,
  type Columns,
  type Formula,
  type Parameter,
  type Quantity,
  type Table,
} from "../../src/core/index.ts";

/** A number from 0 to 1 as a person would give it: not one that differs from a bound in its last bit. */
const share = fc.integer({ min: 0, max: 100_000 }).map((n) => n / 100_000);

function between(low: number, high: number): fc.Arbitrary<number> {
  return share.map((u) => low + u * (high - low));
}

interface Range {
  readonly low: number;
  readonly high: number;
}

/** The range to draw from: the everyday range where there is one, else the allowed one, cut to a width that still means something. */
function rangeOf(q: Quantity): Range {
  const { min, max, above, below } = q as Bounds;
  const low = min ?? above ?? -1e3;
  const high = max ?? below ?? Math.max(1e3, 10 * Math.abs(low));
  return q.typical ? { low: Math.max(low, q.typical[0]), high: Math.min(high, q.typical[1]) } : { low, high };
}

/** Wide positive ranges by order of magnitude, others evenly. */
function at(u: number, { low, high }: Range, q: Quantity): number {
  const spread = q.typical === undefined && low >= 0 && high >= 1e5;
  const from = Math.max(low, high * 1e-6);
  let value = spread ? from * (high / from) ** u : low + u * (high - low);
  if (q.above !== undefined && value <= q.above) value = q.above + 1e-3 * (high - q.above);
  return q.whole ? Math.round(value) : value;
}

/** A row of numbers of their everyday ranges; of a quantity that a choice decides a value that all of them allow. */
const everyday = (columns: Columns): fc.Arbitrary<readonly Cell[]> =>
  fc.tuple(
    ...Object.values(columns).map((c) => {
      if (c.kind === "choice") return fc.constantFrom(...c.values.map(({ value }) => value));
      const of = c.follows ? Object.values(c.follows.as) : [c];
      const range = {
        low: Math.max(...of.map((q) => rangeOf(q).low)),
        high: Math.min(...of.map((q) => rangeOf(q).high)),
      };
      return share.map((u) => at(u, range, of[0]!));
    }),
  );

/** Rows for a table that has an order or a geometry of its own, by the table's key. */
const rowsByKey: Readonly<Record<string, fc.Arbitrary<readonly (readonly Cell[])[]>>> = {
  controlPoints: fc
    .array(fc.tuple(between(1, 15), between(-900, 900), fc.constantFrom("LINE", "FROM_LEVEL", "TO_LEVEL", "SMOOTH")), {
      minLength: 2,
      maxLength: 6,
    })
    .map((rows) => {
      let x = 0;
      return rows.map(([step, e, shape], i) => {
        if (i > 0) x += step;
        return [x, e, i === 0 && shape === "SMOOTH" ? "TO_LEVEL" : shape];
      });
    }),
  jackCalibration: fc
    .array(fc.tuple(between(20, 120), between(50, 600)), { minLength: 2, maxLength: 6 })
    .map((rows) => {
      let [p, P] = [0, 0];
      return rows.map(([more, force]) => [(p += more), (P += force)]);
    }),
  get planPoints() {
    return this["controlPoints"]!;
  },
  stressAlongTendon: fc
    .tuple(between(900, 1450), fc.array(fc.tuple(between(1, 12), between(1, 60)), { minLength: 1, maxLength: 6 }))
    .map(([jack, falls]) => {
      let s = 0;
      let sigma = jack;
      return [[0, jack], ...falls.map(([step, fall]) => [(s += step), (sigma -= fall)])];
    }),
  deviators: fc
    .tuple(
      fc.array(fc.tuple(between(2, 20), between(0, 0.4), between(0, 0.2)), { minLength: 1, maxLength: 4 }),
      between(1, 40),
    )
    .map(([rows, last]) => {
      let x = 0;
      const inside = rows.map(([step, v, h]) => [(x += step), v, h]);
      return [[0, 0, 0], ...inside, [x + last, 0, 0]];
    }),
  // Seven stations, as many values: a member from 0 to 60 m.
  curveStations: fc.array(between(0.1, 1), { minLength: 6, maxLength: 6 }).map((steps) => {
    const whole = steps.reduce((sum, step) => sum + step, 0);
    let x = 0;
    return [[0], ...steps.map((step) => [Math.min(60, (x += (60 * step) / whole))])];
  }),
  curvatures: fc.array(fc.tuple(between(-5, 5)), { minLength: 7, maxLength: 7 }),
  strainsAlong: fc.array(fc.tuple(between(0, 2e-3)), { minLength: 7, maxLength: 7 }),
  // A star-shaped ring around a middle: it never crosses itself.
  outline: fc
    .array(between(0.4, 1), { minLength: 3, maxLength: 9 })
    .map((radii) =>
      radii.map((r, i) => [
        1000 * r * Math.cos((2 * Math.PI * i) / radii.length),
        1000 + 1000 * r * Math.sin((2 * Math.PI * i) / radii.length),
      ]),
    ),
  voids: fc.option(between(5, 40), { nil: 0 }).map((a) =>
    a === 0
      ? []
      : [
          [1, -a, 1000 - a],
          [1, a, 1000 - a],
          [1, a, 1000 + a],
          [1, -a, 1000 + a],
        ],
  ),
  stressedTendons: fc
    .array(fc.tuple(between(200, 5000), between(-600, 900)), { minLength: 1, maxLength: 6 })
    .map((rows) => rows.map(([P, e], i) => [i + 1, P, e])),
  // Stages of one beam, near enough to each other that some force satisfies them all.
  stressConditions: fc
    .array(
      fc.tuple(
        between(0, 1800),
        between(0.75, 1.1),
        between(20, 40),
        between(-6, 0),
        between(6e5, 7e5),
        between(1.4e11, 1.6e11),
        between(700, 800),
        fc.constantFrom("BOTH", "BOTH", "BOTH", "TOP", "BOTTOM"),
      ),
      { minLength: 1, maxLength: 4 },
    )
    .map((rows) => rows.map(([M, r, f_c, f_t, A, I, y_b, fibre]) => [M, r, f_c, f_t, A, I, y_b, 1500, fibre])),
  stressingProgramme: fc
    .array(fc.tuple(between(200, 5000), between(-600, 900), between(500, 5000)), { minLength: 1, maxLength: 6 })
    .map((rows) => rows.map(([P, e, A_p], i) => [i + 1, P, e, A_p])),
  // Layers that lie in every ring drawn above.
  strengthLayers: fc.array(
    fc
      .tuple(
        fc.constantFrom("BONDED", "UNBONDED", "BAR"),
        between(800, 1300),
        between(300, 3000),
        between(700, 1300),
        between(0.03, 0.06),
      )
      .map(([kind, stress, A, y, strain]) =>
        kind === "BAR" ? [kind, A, y, 200, 500, 540, strain, 0] : [kind, A, y, 195, 1600, 1860, strain, stress],
      ),
    { minLength: 1, maxLength: 4 },
  ),
  ducts: fc.array(fc.tuple(between(0, 120), between(80, 1200)), { minLength: 1, maxLength: 6 }),
  tendonsInSection: fc.array(fc.tuple(between(100, 4000), between(80, 1200)), { minLength: 1, maxLength: 6 }),
};

// A tendon in plan: fitted to the length of the one in elevation once that is drawn.
const planOf = (
  points: readonly (readonly Cell[])[],
  plan: readonly (readonly Cell[])[],
): readonly (readonly Cell[])[] => {
  const scale = (points.at(-1)![0] as number) / (plan.at(-1)![0] as number);
  return plan.map(([x, ...rest], i) => [i === plan.length - 1 ? points.at(-1)![0]! : (x as number) * scale, ...rest]);
};

/** Leaves blank what the choices drawn do not use. */
function blankUnused(f: Formula, args: Record<string, unknown>): void {
  for (const [name, { kind, varies }] of Object.entries(f.params))
    if (varies && !varies.as[String(choiceIn(f, args, varies.argument))]) args[name] = kind === "table" ? [] : null;
}

function choiceIn(f: Formula, args: Readonly<Record<string, unknown>>, name: string): unknown {
  const parameter = f.params[name]!;
  return args[name] ?? ("default" in parameter ? parameter.default : undefined);
}

/** Makes choices and blanks drawn apart into a call that has a chance: the convention the path needs, blanks where they must be. */
function fit(args: Record<string, unknown>): void {
  const path = args["path"] as readonly (readonly Cell[])[] | undefined;
  if (path && "wobble" in args) {
    const segments = path[0]!.length === 5;
    const deviators = !segments && typeof path[0]![2] === "number";
    if (deviators) args["wobble"] = "rad";
    else if (args["wobble"] === "rad") args["wobble"] = "1/m";
    for (const own of ["mu", "k"]) {
      if (segments) args[own] = null;
      else args[own] ??= 0.5;
    }
  }
  if ("jacks" in args) {
    const one = args["jacks"] !== "BOTH";
    if (one) {
      for (const right of ["sigma_r", "slip_r"]) if (right in args) args[right] = null;
      if (args["anchorage"]) args["anchorage"] = args["jacks"];
    } else {
      if ("sigma_lo" in args) args["sigma_lo"] = null;
      if ("anchorage" in args) args["anchorage"] ??= "LEFT";
    }
  }
  const plan = args["plan"] as readonly (readonly Cell[])[] | undefined;
  if (!plan || plan.length === 0) return;
  const elevation = (args["points"] ?? path) as readonly (readonly Cell[])[];
  args["plan"] = typeof elevation[0]![2] === "string" ? planOf(elevation, plan) : [];
}

function rows(t: Table): fc.Arbitrary<readonly (readonly Cell[])[]> {
  if (t.kinds) return fc.oneof(...Object.values(t.kinds.tables).map(rows));
  const own = rowsByKey[t.key];
  if (own) return t.optional ? fc.oneof(fc.constant([]), own) : own;
  const row = everyday(t.columns);
  return fc.array(row, { minLength: Math.max(1, t.minRows), maxLength: t.minRows + 4 });
}

/** A whole, believable section where a formula takes the section by its properties: drawn apart they contradict each other. */
const sectionKeys = ["area", "centroidHeight", "secondMoment"];
function wholeSection(f: Formula): boolean {
  const keys = Object.values(f.params).map((p) => p.key);
  return sectionKeys.filter((key) => keys.includes(key)).length >= 2;
}

/** What may stay blank is left blank as often as not. */
function draft(p: Parameter): fc.Arbitrary<unknown> {
  const blank = "blank" in p && p.blank !== undefined;
  switch (p.kind) {
    case "number":
      return blank ? fc.option(share, { nil: null }) : share;
    case "choice": {
      const value = fc.constantFrom(...p.values.map((v) => v.value));
      return blank ? fc.option(value, { nil: null }) : value;
    }
    case "text":
      return fc.constant("text");
    case "table":
      return rows(p);
  }
}

/** What the drawn table and the other arguments allow for a number. */
function rangeHere(
  q: Quantity,
  name: string,
  f: Formula,
  args: Readonly<Record<string, unknown>>,
  limits: Readonly<Record<string, Partial<Bounds> | undefined>>,
): Range {
  const { low, high } = rangeOf(q);
  const limit = limits[name];
  const factor = readFactor(q);
  let range: Range = {
    low: Math.max(low, (limit?.min ?? -Infinity) / factor),
    high: Math.min(high, (limit?.max ?? Infinity) / factor),
  };
  if (range.high < range.low)
    range = {
      low: limit?.min === undefined ? range.high : range.low,
      high: limit?.min === undefined ? range.high : Math.min(range.low * 2 + 1, q.max ?? Infinity),
    };
  const outline = args["outline"] as readonly (readonly number[])[] | undefined;
  if (outline && ["y", "y_1", "y_2"].includes(name)) {
    const heights = outline.map((point) => point[1]!);
    const lowest = Math.min(...heights);
    return { low: name === "y_2" ? Math.max(lowest, Number(args["y_1"])) : lowest, high: Math.max(...heights) };
  }
  const path = (args["path"] ?? args["points"]) as readonly (readonly number[])[] | undefined;
  if (q.key === "controlX" && path) {
    const ends =
      path[0]!.length === 5
        ? { low: 0, high: path.reduce((sum, [l]) => sum + l!, 0) }
        : { low: path[0]![0]!, high: path.at(-1)![0]! };
    // What another place forbids counts too.
    return {
      low: Math.max(ends.low, (limit?.min ?? 0) / factor),
      high: Math.min(ends.high, (limit?.max ?? Infinity) / factor),
    };
  }
  const tendons = args["tendons"] as readonly unknown[] | undefined;
  if ((q.key === "stressingOrder" || name === "row") && tendons) return { low: 1, high: tendons.length };
  if (wholeSection(f)) {
    if (q.key === "area") return { low: 2e5, high: 2e6 };
    if (q.key === "centroidHeight") return { low: 300, high: 900 };
    if (q.key === "secondMoment") return { low: 2e10, high: 8e11 };
  }
  return range;
}

/** Is every choice made that is asked for? What is drawn without is refused in the end. */
function hasItsChoices(f: Formula, args: Readonly<Record<string, unknown>>): boolean {
  return Object.entries(f.params).every(([name, declared]) => {
    const parameter = inForce(declared, args);
    const left = parameter.kind === "choice" && parameter.default === undefined && parameter.blank === undefined;
    return !left || args[name] !== null;
  });
}

/** Arguments in the cells' units that the formula accepts, for each of its parameters. */
export function argumentsOf(f: Formula): fc.Arbitrary<readonly Argument[]> {
  const names = Object.keys(f.params);
  return fc
    .tuple(...names.map((name) => draft(f.params[name]!)))
    .map((drawn) => {
      const args: Record<string, unknown> = Object.fromEntries(names.map((name, i) => [name, drawn[i]]));
      fit(args);
      blankUnused(f, args);
      // Bounds of one argument follow from others: settle them in a few rounds.
      for (let round = 0; round < 4; round++) {
        let limits: Readonly<Record<string, Partial<Bounds> | undefined>> = {};
        if (round > 0 && f.limits && hasItsChoices(f, args)) {
          const values = Object.fromEntries(
            names.map((name) => [name, valueOf(inForce(f.params[name]!, args), args[name])]),
          );
          limits = f.limits(values as never);
        }
        names.forEach((name, i) => {
          const p = f.params[name]!;
          if (p.kind !== "number" || args[name] === null) return;
          const q = inForce(p, args);
          const u = typeof drawn[i] === "number" ? drawn[i] : 0.5;
          args[name] = at(u, rangeHere(q, name, f, args, limits), q);
        });
      }
      return names.map((name) => args[name] as Argument);
    })
    .filter((args) => isAccepted(f, args));
}

function valueOf(p: Parameter, argument: unknown): unknown {
  if (argument === null) return undefined;
  return p.kind === "number" ? (argument as number) * readFactor(p) : argument;
}

function isAccepted(f: Formula, args: readonly Argument[]): boolean {
  try {
    const values = read(f, args);
    f.stepwise(values);
    return true;
  } catch (error) {
    // A draw that the formula refuses says nothing about its equation.
    if (error instanceof InputError || (error instanceof Error && error.name === "NoResult")) return false;
    throw error;
  }
}
