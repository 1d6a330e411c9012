/**
 * Draws inputs for a sheet: most near what an engineer would enter, some anywhere in the allowed range, some at its
 * very ends. Afterwards what would only
 * contradict other inputs is put right, so that few draws are lost; whether a draw is free of conflicts is for the sheet to say.
 */
import { boundsOf, type InputCell, type Template } from "../../src/sheet/index.ts";
import type { Random } from "./random.ts";
import type { DrawnSheet } from "./sheet.ts";

type Single = string | number | null;

interface Range {
  readonly low: number;
  readonly high: number;
}

/** A number nothing is allowed beyond, where a quantity has no bound of its own. */
const far = 1e6;
const justBeyond = 1e-3;

function allowedRange({ spec, says }: InputCell): Range {
  const { min, above, max, below } = boundsOf(spec, says.quantity);
  const high = max ?? (below === undefined ? far : below - justBeyond);
  const low = min ?? (above === undefined ? -high : above + Math.min(justBeyond, (high - above) * 1e-6));
  return { low, high };
}

/** Evenly in the logarithm where the range is wide and positive, so that small numbers come too. */
function anywhere({ low, high }: Range, random: Random): number {
  const from = Math.max(low, high * 1e-4);
  if (low >= 0 && high / from > 100 && random.chance(0.7)) return from * (high / from) ** random.next();
  return random.between(low, high);
}

function clamped(value: number, { low, high }: Range): number {
  return Math.min(high, Math.max(low, value));
}

function numberFor(cell: InputCell, example: unknown, wildness: number, random: Random): number {
  const allowed = allowedRange(cell);
  const { typical } = cell.says.quantity ?? {};
  const { whole } = boundsOf(cell.spec, cell.says.quantity);
  const drawn = (): number => {
    if (random.chance(wildness))
      return random.chance(0.3) ? random.pick([allowed.low, allowed.high]) : anywhere(allowed, random);
    if (typeof example === "number" && random.chance(0.6)) return example * random.between(0.7, 1.4);
    if (typical) return anywhere({ low: typical[0], high: typical[1] }, random);
    return typeof example === "number" ? example * random.between(0.3, 3) : anywhere(allowed, random);
  };
  const value = clamped(drawn(), allowed);
  return whole || cell.says.id === "members"
    ? clamped(Math.round(value), { low: Math.ceil(allowed.low), high: Math.floor(allowed.high) })
    : value;
}

function exampleOf(template: Template, { id, index }: InputCell): unknown {
  const flat = (value: unknown): readonly unknown[] => (Array.isArray(value) ? value.flatMap(flat) : [value]);
  const all = flat(template.example.inputs[id] ?? template.source?.template.example.inputs[id]);
  return all[index] ?? all[0];
}

function valueFor(template: Template, cell: InputCell, wildness: number, random: Random): Single {
  const { spec } = cell;
  if (spec.mayBeEmpty && !spec.freeText && random.chance(0.5)) return null;
  return given(template, cell, wildness, random);
}

function given(template: Template, cell: InputCell, wildness: number, random: Random): Single {
  const { spec } = cell;
  if (spec.freeText) return "";
  if (spec.choices) return random.pick(spec.choices).value;
  return numberFor(cell, exampleOf(template, cell), wildness, random);
}

/** Values by input id while they are put right. */
class Values {
  readonly #places = new Map<string, number[]>();
  readonly all: Single[];
  constructor(
    private readonly inputs: readonly InputCell[],
    drawn: readonly Single[],
  ) {
    this.all = [...drawn];
    inputs.forEach(({ id }, i) => this.#places.set(id, [...(this.#places.get(id) ?? []), i]));
  }

  has(id: string): boolean {
    return this.#places.has(id);
  }

  number(id: string, index = 0): number {
    return Number(this.all[this.#places.get(id)![index]!]);
  }

  text(id: string, index = 0): string {
    return String(this.all[this.#places.get(id)![index]!]);
  }

  count(id: string): number {
    return this.#places.get(id)?.length ?? 0;
  }

  /** Puts a number in, kept within what the input allows. */
  set(id: string, value: Single, index = 0): void {
    const place = this.#places.get(id)?.[index];
    if (place === undefined) return;
    this.all[place] = typeof value === "number" ? clamped(value, allowedRange(this.inputs[place]!)) : value;
  }

  limit(id: string, low: number, high: number, random: Random): void {
    for (let i = 0; i < this.count(id); i++) this.limitOne(id, i, low, high, random);
  }

  limitOne(id: string, index: number, low: number, high: number, random: Random): void {
    if (this.#places.get(id)?.[index] === undefined) return;
    const value = this.number(id, index);
    // Where nothing is entered there is nothing to put right.
    if (this.all[this.#places.get(id)![index]!] === null) return;
    if (!(value >= low && value <= high)) this.set(id, random.between(low, high), index);
  }
}

/** An outline that goes round without crossing: points round an ellipse, the lowest at 0. */
function outline(values: Values, random: Random): number {
  const n = values.count("oy");
  const [width, depth] = [random.between(200, 2000), random.between(200, 2500)];
  const points = Array.from({ length: n }, (_, i) => {
    const turn = (2 * Math.PI * (i + random.between(-0.2, 0.2))) / n - Math.PI / 2;
    return { x: (width / 2) * Math.cos(turn), y: (depth / 2) * (1 + Math.sin(turn)) };
  });
  const lowest = Math.min(...points.map(({ y }) => y));
  points.forEach(({ x, y }, i) => {
    values.set("ox", x, i);
    values.set("oy", y - lowest, i);
  });
  return Math.max(...points.map(({ y }) => y - lowest));
}

function section(values: Values, random: Random): number {
  const h = values.has("oy") ? outline(values, random) : values.number("h");
  for (const id of ["tf", "ttop", "tbot", "ttopbox", "tbotbox"]) values.limit(id, 0.02 * h, 0.4 * h, random);
  for (const [web, ...flanges] of [
    ["bw", "bf"],
    ["bwi", "btop", "bbot"],
  ] as const)
    if (values.has(web)) {
      const narrowest = Math.min(...flanges.map((id) => values.number(id)));
      values.limit(web, 0.1 * narrowest, narrowest, random);
    }
  if (values.has("tweb")) values.limit("tweb", 0.05 * values.number("bbox"), 0.45 * values.number("bbox"), random);
  return h;
}

/** What the product picked would fill is typed, near the example: which products fill what has a test of its own. */
function steel(values: Values, random: Random): void {
  const everyday = { As1In: 140, fpkIn: 1860, fp01kIn: 1600, EpIn: 195, diameterIn: 15.3 };
  for (const [id, value] of Object.entries(everyday))
    if (values.has(id) && values.text(id) === "null") values.set(id, value * random.between(0.95, 1.05));
  if (values.has("relaxIn") && values.text("relaxIn") === "null") values.set("relaxIn", random.pick([1, 2, 3]));
  // A wire fills its circle, a strand does not.
  if (values.has("diameterIn") && values.has("surface") && values.text("surface") !== "STRAND")
    values.set("diameterIn", 2 * Math.sqrt(values.number("As1In") / Math.PI));
}

function ages(values: Values): void {
  const ids = ["t0", "tg", "tq", "tEnd"].filter((id) => values.has(id));
  ids
    .slice(1)
    .forEach((id, i) =>
      values.set(id, Math.max(values.number(id), values.number(ids[i]!) * (id === "tEnd" ? 1.5 : 1.01))),
    );
  if (values.has("ts")) values.set("ts", Math.min(values.number("ts"), values.number("tEnd")));
  if (values.has("psi2")) values.set("psi2", Math.min(values.number("psi2"), values.number("psi1")));
  if (values.has("fp01kIn")) values.set("fp01kIn", Math.min(values.number("fp01kIn"), values.number("fpkIn")));
}

function curing(values: Values, random: Random): void {
  if (values.has("hdt")) {
    const n = values.count("hdt");
    const hours = Math.min(24 * values.number("t0"), 2000 * n);
    values.set("t0", hours / 24);
    for (let i = 0; i < n; i++) values.set("hdt", hours / n, i);
    const hottest = Math.max(...Array.from({ length: n }, (_, i) => values.number("hT", i)));
    values.limit("tempering", -20, hottest, random);
  }
  if (values.has("tBed")) {
    values.set("tBed", Math.max(values.number("tBed"), 24.1 * values.number("t0")));
    values.set("tRelax", Math.max(values.number("tRelax"), 100 * values.number("tBed") + 1e6));
  }
}

function tendons(sheet: DrawnSheet, values: Values, h: number, random: Random): void {
  const n = values.count("duct");
  const points = values.count("cpL") / n;
  const area = sheet.with(values.all).valuesOf("Ac")[0];
  const yb = Number(sheet.with(values.all).valuesOf("yb")[0]);
  const most = typeof area === "number" ? Math.min(500, Math.sqrt(area / n / 2), 0.8 * h) : 500;
  for (let t = 0; t < n; t++) {
    const own = 2 * Math.sqrt((values.number("strands", t) * values.number("As1In")) / Math.PI) * 1.05;
    if (own > most)
      values.set("strands", Math.max(1, Math.floor(((most / 1.1) ** 2 * Math.PI) / 4 / values.number("As1In"))), t);
    const inner = 1.03 * 2 * Math.sqrt((values.number("strands", t) * values.number("As1In")) / Math.PI);
    if (!(values.number("duct", t) >= inner && values.number("duct", t) <= most))
      values.set("duct", random.between(inner, Math.max(inner, most)), t);
    // A tendon may follow the first where its duct has room there.
    const follows = t > 0 && values.number("duct", t) <= values.number("duct", 0) && random.chance(0.3);
    values.set("likeT", follows ? 1 : null, t);
    values.set("lift", 0, t);
    const cuts = Array.from({ length: points - 2 }, () => random.between(0.1, 0.9)).sort((a, b) => a - b);
    [0, ...cuts, 1].forEach((part, p) => values.set("cpL", part, t * points + p));
  }
  // The turning points of parabolas can lie beyond their ends: where they leave the section, their ends come nearer to its middle.
  for (const room of [0.2, 0.27, 0.34, 0.4]) {
    heights(values, { h, yb, points, room }, random);
    if (!sheet.with(values.all).conflicts.some((one) => one.includes("leaves the section"))) return;
  }
}

/** Points of the tendons above the soffit and below the top by half the duct, and more. */
function heights(
  values: Values,
  { h, yb, points, room }: { readonly h: number; readonly yb: number; readonly points: number; readonly room: number },
  random: Random,
): void {
  for (let t = 0; t < values.count("duct"); t++) {
    const own = 0.55 * values.number("duct", t);
    const inside = Math.max(own, Math.min(own + room * h, 0.45 * h));
    for (let p = 0; p < points; p++) {
      const at = t * points + p;
      const [low, high] =
        values.text("cpFrom", at) === "CENTROID" ? [yb - h + inside, yb - inside] : [inside, h - inside];
      const height = values.text("cpy", at) === "null" ? NaN : values.number("cpy", at);
      if (!(height >= low && height <= high)) values.set("cpy", random.between(low, high), at);
      if (p === 0) values.set("cpShape", random.pick(["LINE", "FROM_LEVEL", "TO_LEVEL"]), t * points);
    }
  }
}

function strands(values: Values, h: number, random: Random): void {
  const L = values.number("L");
  values.limit("devL", 0.05, 0.5, random);
  values.limit("yMidIn", 0.03 * h, 0.97 * h, random);
  values.limit("yEndIn", 0.03 * h, 0.97 * h, random);
  values.limit("debond", 0, 0.49 * L, random);
  if (values.has("members")) values.limit("overU", 0, Math.min(5, 0.05 * L), random);
  const least = 2 * Math.sqrt(values.number("As1In") / Math.PI);
  // Steel that fills its circle is a wire.
  if (least > 39) values.set("As1In", (Math.PI / 4) * 33 ** 2);
  if (values.text("surface") === "STRAND") values.limit("diameterIn", Math.min(40, least), 40, random);
  else values.set("diameterIn", 2 * Math.sqrt(values.number("As1In") / Math.PI));
}

/** The shear of entered moments: not known, or that of moments that are 0 everywhere. Any other must go with their slope. */
function shears(values: Values, random: Random): void {
  const known = random.chance(0.5);
  for (const action of ["g", "s", "q"])
    for (let i = 0; i < values.count(`furV${action}`); i++) {
      values.set(`furV${action}`, known ? 0 : null, i);
      if (known) values.set(`fur${action.toUpperCase()}`, 0, i);
    }
}

/** The sheet of strength: lower factors no higher than the upper ones, bars near their edge, links that change outward. */
function strength(values: Values, h: number, random: Random): void {
  if (!values.has("inGs")) return;
  for (const [low, high] of [
    ["inGi", "inGs"],
    ["inPf", "inPu"],
    ["inCot1", "inCot2"],
  ] as const)
    if (values.has(low)) values.set(low, Math.min(values.number(low), values.number(high)));
  const needed = { inFy: 500, inS2: 200, inS3: 300 };
  for (const [id, value] of Object.entries(needed))
    if (values.has(id) && values.text(id) === "null") values.set(id, value);
  values.limit("inYb", 0, h / 2, random);
  values.limit("inDt", 0, h / 2, random);
  if (values.has("inA1") && values.text("inA1") !== "null")
    values.limit("inA2", 1.1 * values.number("inA1"), 1.1 * values.number("inA1") + 5, random);
}

/** Steel by its certificate, near the design's. */
function certificate(sheet: DrawnSheet, values: Values, random: Random): void {
  const first = sheet.with(values.all);
  for (const [id, designed] of [
    ["EpCert", "Ep"],
    ["As1Cert", "As1"],
  ] as const)
    values.limit(id, 0.85 * Number(first.valuesOf(designed)[0]), 1.2 * Number(first.valuesOf(designed)[0]), random);
}

/** A stressing record: steel near the design's, a calibration that covers what is asked, and either nothing read or readings that rise. */
function record(sheet: DrawnSheet, values: Values, random: Random): void {
  if (!values.has("calBy")) return;
  certificate(sheet, values, random);
  const first = sheet.with(values.all);
  for (let jack = 0; jack < values.count("jkArea"); jack++) {
    // A second jack that pulls no tendon may be any: the first one's forces do.
    const [high, low] = ["askHi", "askLo"].map((id) => Number(first.valuesOf(id)[0]));
    calibration(values, { jack, high: high!, low: low! }, random);
  }
  readings(sheet, values, random);
}

function calibration(
  values: Values,
  { jack, high, low }: { readonly jack: number; readonly high: number; readonly low: number },
  random: Random,
): void {
  values.limitOne("jkOff", jack, -0.2 * low, 0.5 * low, random);
  const kept = (1 - values.number("jkLoss", jack)) * (1 - values.number("jkAnch", jack));
  values.limitOne("jkArea", jack, (6 * high * 1000) / kept / 200, (40 * high * 1000) / kept / 200, random);
  const points = values.count("calP") / values.count("jkArea");
  for (let point = 0; point < points; point++) {
    values.set("calP", 30 + 100 * point, jack * points + point);
    values.set("calF", 0.5 * low + ((1.3 * high - 0.5 * low) * point) / (points - 1), jack * points + point);
  }
}

function readings(sheet: DrawnSheet, values: Values, random: Random): void {
  const ids = ["rdBar", "rdL", "rdLift", "lkSlip", "lkDead", "lkWires"];
  for (const id of ids) for (let i = 0; i < values.count(id); i++) values.set(id, null, i);
  if (random.chance(0.3)) return;
  const asked = sheet.with(values.all);
  const stages = values.count("rdBar") / values.count("lkSlip");
  const [bars, marks] = [asked.valuesOf("sgBar"), asked.valuesOf("sgEl")];
  for (let i = 0; i < values.count("rdBar"); i++) {
    const [bar, since] = [bars[i], marks[i]];
    if (typeof bar !== "number" || typeof since !== "number") continue;
    values.set("rdBar", bar * random.between(0.97, 1.03), i);
    values.set("rdL", 20 + since * random.between(0.9, 1.1), i);
  }
  const lift = values.has("rdLift") ? asked.valuesOf("rgLoBar") : [];
  for (let i = 0; i < values.count("lkSlip"); i++) {
    if (typeof bars[i * stages] !== "number") continue;
    const off = lift[i];
    if (typeof off === "number") values.set("rdLift", off * random.between(0.97, 1.03), i);
    values.set("lkSlip", random.between(0, 10), i);
    values.set("lkDead", 0.2 * Number(marks[i * stages + stages - 1]) * random.next(), i);
    values.set("lkWires", random.pick(["NONE", "SOME"]), i);
  }
}

/** How wide a member is a hundredth of its depth below its top, which is where a topping bears. */
function topWidth(values: Values): number {
  if (!values.has("oy")) {
    const id = ["btop", "bf", "bbox", "b"].find((one) => values.has(one));
    return id === undefined ? Infinity : values.number(id);
  }
  const points = Array.from({ length: values.count("oy") }, (_, i) => ({
    x: values.number("ox", i),
    y: values.number("oy", i),
  }));
  const level = 0.99 * Math.max(...points.map(({ y }) => y));
  const crossed = points.flatMap((a, i) => {
    const b = points[(i + 1) % points.length]!;
    return a.y > level === b.y > level ? [] : [a.x + ((b.x - a.x) * (level - a.y)) / (b.y - a.y)];
  });
  return Math.max(...crossed) - Math.min(...crossed);
}

/**
 * A topping no narrower than its joint, which is no wider than the member's top; cast after the prestress onto a member
 * strong enough by then.
 */
function topping(values: Values, random: Random): void {
  if (!values.has("inProp")) return;
  const widest = Math.min(values.number("inBs"), topWidth(values));
  values.limit("inBi", Math.min(80, widest / 2), widest, random);
  // No more steel across the joint than a tenth of its area.
  if (values.has("inJs") && values.number("inJs") > 0) {
    const joint = values.number("inBi") * values.number("inJs");
    values.limit("inJa", 0.001 * joint, 0.09 * joint, random);
  }
  values.limit("inBe", values.number("inBi"), values.number("inBs"), random);
  values.limit("inTc", values.number("t0"), values.number("tEnd") / 2, random);
  values.limit("inFc", 12, values.number("fck"), random);
  if (values.has("inPsi1")) values.limit("inPsi2", 0, values.number("inPsi1"), random);
}

/** What is said of a topping: nothing of its load where there is none, and no more than the loads it is a part of. */
function declaredTopping(values: Values, random: Random): void {
  if (!values.has("gsTop")) return;
  // A composite sheet is built beside a stress check that declares the topping.
  if (values.has("inProp")) values.set("topping", "YES");
  if (values.text("topping") === "NO" && values.number("gsTop") > 0) values.set("gsTop", null);
  if (values.has("gs")) values.limit("gsTop", 0, values.number("gs"), random);
  // What props carry is no load of the stress check.
  if (values.has("inProp") && values.text("inProp") === "PROPPED") values.set("gsTop", 0);
}

/** The long line: what its bed holds, a jack that can pull a strand, and either nothing read or readings near what is asked. */
function line(sheet: DrawnSheet, values: Values, random: Random): void {
  if (!values.has("slBar")) return;
  const bed = values.number("bedLength");
  values.limit("gapU", 0, 0.05 * bed, random);
  values.limit("endsU", 0, 0.1 * bed, random);
  certificate(sheet, values, random);
  const most = values.number("As1In") * values.number("fpkIn");
  const kept = 1 - values.number("jkLoss");
  values.limit("jkArea", (1.1 * most) / kept / 200, (20 * most) / kept / 200, random);
  strandReadings(sheet, values, random);
}

/** Readings of strands that the line has; now and then one is left out. */
function strandReadings(sheet: DrawnSheet, values: Values, random: Random): void {
  for (const id of ["slBar", "slL", "slSlip", "slWire"])
    for (let i = 0; i < values.count(id); i++) values.set(id, null, i);
  if (random.chance(0.7)) values.set("firstStrand", 1);
  if (random.chance(0.3)) return;
  const asked = sheet.with(values.all);
  const [bars, marks] = [asked.valuesOf("tgBar"), asked.valuesOf("tgRead")];
  asked.valuesOf("slRow").forEach((row, i) => {
    if (typeof row !== "number" || random.chance(0.1)) return;
    values.set("slBar", Number(bars[row - 1]) * random.between(0.95, 1.05), i);
    values.set("slL", Number(marks[row - 1]) * random.between(0.9, 1.1), i);
    values.set("slSlip", random.between(0, 10), i);
    values.set("slWire", random.pick(["NONE", "NONE", "NONE", "SOME"]), i);
  });
}

/** Dimensions of a choice are typed or usual; typed ones keep to each other and to the depth. */
function choice(sheet: DrawnSheet, values: Values, random: Random): void {
  const L = values.number("L");
  values.limit("hIn", 20 * L, Math.min(120 * L, 10_000), random);
  const now = (id: string): number => Number(sheet.with(values.all).valuesOf(id)[0]);
  if (now("h") > Math.min(500 * L, 10_000)) values.set("hIn", random.between(20 * L, Math.min(120 * L, 10_000)));
  const h = now("h");
  for (const id of ["tf", "ttop", "tbot", "ttopbox", "tbotbox"]) {
    if (!values.has(`${id}In`)) continue;
    if (now(id) > 0.4 * h) values.set(`${id}In`, random.between(0.02 * h, 0.4 * h));
    values.limit(`${id}In`, 0.02 * h, 0.4 * h, random);
  }
  for (const [web, ...flanges] of [
    ["bw", "bf"],
    ["bwi", "btop", "bbot"],
  ] as const) {
    if (!values.has(`${web}In`)) continue;
    const narrowest = Math.min(...flanges.map(now));
    if (now(web) > narrowest) values.set(`${web}In`, random.between(0.1, 1) * narrowest);
  }
  if (values.has("twebIn") && now("tweb") > 0.45 * now("bbox"))
    values.set("twebIn", random.between(0.05, 0.45) * now("bbox"));
  values.limit("cLow", 0.03 * h, 0.45 * h, random);
  values.limit("Lu", L, 1.1 * L, random);
  values.limit("bedEnds", 0, values.number("bedLength"), random);
  values.limit("tg", 14, 365, random);
  values.limit("t0M", 7, values.number("tg") - 1, random);
  if (!values.has("tEnd")) return;
  values.limit("tEnd", 2 * values.number("tg"), 30_000, random);
  values.limit("ts", 1, values.number("tEnd"), random);
}

/** Where the right end is as the left one, its own places stay empty. */
function rightEnd(values: Values): void {
  if (!values.has("rightAs") || values.text("rightAs") !== "LEFT") return;
  const ofEnds = ["aiV", "aiH", "aiHole", "aiZ", "aiGroup", "siDia", "siLegs", "siLayers", "siFirst", "siStep"];
  for (const id of ofEnds) for (let i = values.count(id) / 2; i < values.count(id); i++) values.set(id, null, i);
}

/** Where other inputs ask for some that were left empty, these are drawn, too. */
function needed(sheet: DrawnSheet, values: Values, wildness: number, random: Random): void {
  if (sheet.with(values.all).refused.length === 0) return;
  sheet.inputs.forEach((cell, i) => {
    if (values.all[i] !== null || cell.spec.neededWhere === undefined) return;
    values.all[i] = given(sheet.template, cell, wildness, random);
  });
}

/** Numbers from a copy of a standard: near those of the example, with lines and ages that hold the member. */
function copied(sheet: DrawnSheet, values: Values, random: Random): void {
  for (const cell of sheet.inputs) {
    const example = exampleOf(sheet.template, cell);
    if (cell.spec.near && typeof example === "number") values.set(cell.id, example * random.between(0.95, 1.05));
  }
  for (const id of ["gradePost", "gradePre", "lineT1Post", "lineT1Pre", "lineS1", "transFrom"])
    values.limit(id, 20, 39, random);
  for (const id of ["lineT2Post", "lineT2Pre", "lineS2"]) values.limit(id, 61, 100, random);
  if (!values.has("creepT1")) return;
  values.limit("t0", 7, 365, random);
  values.limit("creepT1", 1, 0.5 * values.number("t0"), random);
  values.limit("creep2", 0.1, values.number("creep1"), random);
  values.limit("creep3", 0.1, values.number("creep2"), random);
}

/** One draw of all inputs of a sheet. `wildness`: how many in one are drawn from anywhere they are allowed. */
export function draw(sheet: DrawnSheet, wildness: number, random: Random): readonly Single[] {
  const drawn = sheet.inputs.map((cell) => valueFor(sheet.template, cell, wildness, random));
  const values = new Values(sheet.inputs, drawn);
  if (values.has("hIn")) {
    choice(sheet, values, random);
    needed(sheet, values, wildness, random);
    values.limit("psi1", values.number("psi2"), 1, random);
    return values.all;
  }
  const h = section(values, random);
  steel(values, random);
  copied(sheet, values, random);
  values.limit("sigj", 0.4 * values.number("fpkIn"), values.number("fpkIn"), random);
  if (values.has("fci")) values.limit("fck", 40, 60, random);
  values.limit("fci", 40, 60, random);
  for (let i = 0; i < values.count("tStep"); i++)
    values.limitOne("tStep", i, 0.6 * values.number("t0"), values.number("t0"), random);
  for (let i = 0; i < values.count("fckStep"); i++) values.limitOne("fckStep", i, 12, values.number("fckt"), random);
  for (let i = 0; i < values.count("fciStep"); i++) values.limitOne("fciStep", i, 30, values.number("fci"), random);
  values.set("L", Math.max(values.number("L"), h / 1000));
  values.limit("delta", 0, Math.min(0.02, values.number("L") / 50), random);
  values.limit("liftAt", 0, values.number("L") / 2, random);
  // Stored at least as far in as it stands later; one that stays where it was cast ends at its supports.
  if (values.has("members") && values.has("overU"))
    values.limit(
      "overU",
      0,
      values.has("liftAt") ? Math.min(values.number("overU"), values.number("liftAt")) : 0,
      random,
    );
  values.limit("edge", 0, h / 2, random);
  values.limit("detFrom", 0, values.number("L") / 2, random);
  values.limit("ysB", 0, h / 2, random);
  strength(values, h, random);
  if (values.has("webUp")) {
    values.limit("webLow", 0, 0.5 * h, random);
    values.limit("webUp", values.number("webLow") + 0.1 * h, h, random);
  }
  // A pre-tensioned sheet knows half of the span.
  values.limit("plX", 0, values.number("L") / 2, random);
  for (let i = 0; i < values.count("furX"); i++) values.set("furX", null, i);
  shears(values, random);
  curing(values, random);
  ages(values);
  if (values.has("tAgain")) values.limit("tAgain", 1.005 * values.number("t0"), values.number("tg"), random);
  if (values.has("tAgain") && values.text("tAgain") === "null") values.set("fckAgain", null);
  if (values.has("fckAgain")) values.limit("fckAgain", values.number("fckt"), 1.3 * values.number("fckt"), random);
  if (values.has("selfMost")) values.limit("selfMost", values.number("selfSure"), 1, random);
  if (values.has("cpL")) tendons(sheet, values, h, random);
  if (values.has("yMidIn")) strands(values, h, random);
  declaredTopping(values, random);
  needed(sheet, values, wildness, random);
  rightEnd(values);
  record(sheet, values, random);
  line(sheet, values, random);
  topping(values, random);
  return values.all;
}

/** A small shape with every choice open, so that a draw takes no longer than it must. */
export function drawShape(template: Template, random: Random): Readonly<Record<string, string | number>> {
  const few: Readonly<Record<string, number>> = { intervals: 1, tendons: 2, rows: 2, points: 4, steps: 2, corners: 6 };
  return Object.fromEntries(
    template.shape.map(({ id, choices, min, max }) => [
      id,
      choices ? random.pick(choices).value : random.whole(min!, Math.min(max!, few[id] ?? min!)),
    ]),
  );
}
