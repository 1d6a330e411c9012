import type { ProductKind } from "../../core/index.ts";
import type { Inputs } from "../../sheet/index.ts";
import { eccentricities, type Member } from "./member.ts";
import type { SectionType } from "./sections.ts";

/** Strands side by side at one height, with heights above the soffit, mm, and the length debonded at each end, m. */
export interface StrandRow {
  readonly n: number;
  readonly yMid: number;
  readonly yEnd: number;
  readonly debond: number;
}

/** Centre to centre, and from the faces below, above and beside, mm. */
export interface Spacing {
  readonly apart: number;
  readonly fromFace: number;
  readonly fromSide: number;
  /** Whether rows may be raised towards the ends. */
  readonly mayRise: boolean;
}

/**
 * Wires lie closer than strands, nearer to the faces of their shallow members, and are not deflected. Common practice,
 * no source.
 */
export const spacingOf = (kind: ProductKind): Spacing =>
  kind === "WIRE"
    ? { apart: 30, fromFace: 45, fromSide: 40, mayRise: false }
    : { apart: 50, fromFace: 60, fromSide: 50, mayRise: true };

/** The concrete in which rows have to find room. */
export interface Within {
  readonly section: SectionType;
  readonly dimensions: Inputs;
  readonly spacing: Spacing;
}

/** Deviators from each end over the span, and the steps in which a debonded length is tried, m. Common practice, no source. */
export const deviatorsAt = 0.35;
const debondStep = 0.5;
const mostDebonded = 0.5;
const mostRows = 10;
const mostStrands = 80;

/** Width of concrete in one piece about the vertical axis at a height, mm; 0 where the section is hollow there. */
export function widthAt(section: SectionType, of: Inputs, y: number): number {
  const d = (id: string): number => Number(of[id]);
  const within = (bottom: number, top: number): boolean => y >= bottom && y <= top;
  switch (section) {
    case "RECTANGLE":
      return d("b");
    case "T":
    case "DOUBLE_TEE":
      return y > d("h") - d("tf") ? d("bf") : d("bw");
    case "I":
      if (within(0, d("tbot"))) return d("bbot");
      return y > d("h") - d("ttop") ? d("btop") : d("bwi");
    case "BOX":
      return within(d("tbotbox"), d("h") - d("ttopbox")) ? 0 : d("bbox");
  }
}

/** How many strands fit side by side at a height: all round each strand there is concrete of that width. */
export function roomAt({ section, dimensions, spacing }: Within, y: number): number {
  const { apart, fromFace, fromSide } = spacing;
  const width = Math.min(...[y - fromFace / 2, y, y + fromFace / 2].map((at) => widthAt(section, dimensions, at)));
  // Half of a row lies in each web.
  const webs = section === "DOUBLE_TEE" ? 2 : 1;
  const each = width / webs;
  return each < 2 * fromSide ? 0 : webs * (Math.floor((each - 2 * fromSide) / apart) + 1);
}

interface Places {
  readonly y: number;
  readonly most: number;
}

/** Heights at which rows may lie, from a face inwards. */
function places(within: Within, face: "bottom" | "top"): readonly Places[] {
  const { apart, fromFace } = within.spacing;
  const h = Number(within.dimensions["h"]);
  return Array.from({ length: mostRows }, (_, i) => {
    const inwards = fromFace + apart * i;
    const y = face === "bottom" ? inwards : h - inwards;
    return { y, most: inwards > 0.45 * h ? 0 : roomAt(within, y) };
  }).filter(({ most }) => most > 0);
}

/** So many strands, the outermost row filled first; undefined where they do not fit. */
function filled(among: readonly Places[], strands: number, mostInRow = Infinity): readonly StrandRow[] | undefined {
  const rows: StrandRow[] = [];
  let open = strands;
  for (const { y, most } of among) {
    if (open === 0) break;
    const n = Math.min(open, most, mostInRow);
    rows.push({ n, yMid: y, yEnd: y, debond: 0 });
    open -= n;
  }
  return open === 0 ? rows : undefined;
}

/** Whether each row has as many strands in one web of a double tee as in the other. */
const alikeInWebs = (rows: readonly StrandRow[], section: SectionType): boolean =>
  section !== "DOUBLE_TEE" || rows.every(({ n }) => n % 2 === 0);

const count = (rows: readonly StrandRow[]): number => rows.reduce((sum, { n }) => sum + n, 0);

/** Height of a row at a distance from the nearer end: straight to the deviator, level from there on. */
const heightAt = ({ yMid, yEnd }: StrandRow, x: number, L: number): number =>
  yEnd + (yMid - yEnd) * Math.min(1, x / (deviatorsAt * L));

/** Whether rows keep all limits at a distance from the end; `full`: how far from its beginning a strand's force is whole. */
function keeps(rows: readonly StrandRow[], member: Member, x: number, full: number): boolean {
  const acting = rows.filter(({ debond }) => x >= debond + full - 1e-9);
  const strands = count(acting);
  if (strands === 0) return false;
  const y = acting.reduce((sum, row) => sum + row.n * heightAt(row, x, member.L), 0) / strands;
  const e = member.yb - y;
  const [from, to] = eccentricities(member, strands * member.perStrand, member.conditionsAt(x));
  return e >= from && e <= to;
}

/** At the ends, along the span and where debonded strands begin to act. */
function keepsAll(rows: readonly StrandRow[], member: Member, full: number): boolean {
  const { L } = member;
  const begins = rows.map(({ debond }) => debond + full);
  const along = [0.1, 0.2, 0.3, deviatorsAt, 0.4, 0.5].map((part) => part * L).filter((x) => x >= full);
  return [L / 2, full, ...begins, ...along].every((x) => keeps(rows, member, x, full));
}

/** Rows of which every second is debonded as short as the limits ask; undefined where no length does it. */
function debonded(rows: readonly StrandRow[], member: Member, full: number): readonly StrandRow[] | undefined {
  const bottom = rows.filter(({ yMid }) => yMid < member.h / 2);
  for (const parity of [1, 0]) {
    const chosen = new Set(bottom.filter((_, i) => i % 2 === parity));
    if (chosen.size === 0 || count([...chosen]) > mostDebonded * count(rows)) continue;
    for (let length = debondStep; length <= 0.3 * member.L; length += debondStep) {
      const tried = rows.map((row) => (chosen.has(row) ? { ...row, debond: length } : row));
      if (keepsAll(tried, member, full)) return tried;
    }
  }
  return undefined;
}

/** Rows raised towards the ends; undefined where the web is too narrow for them or no height does it. */
function deflected(
  rows: readonly StrandRow[],
  member: Member,
  full: number,
  within: Within,
): readonly StrandRow[] | undefined {
  const { apart, fromFace } = within.spacing;
  const top = Math.max(...rows.map(({ yMid }) => yMid));
  for (let rise = apart; top + rise <= member.h - fromFace; rise += apart) {
    const tried = rows.map((row) => ({ ...row, yEnd: row.yMid + rise }));
    const fits = tried.every(({ n, yEnd }) => n <= roomAt(within, yEnd));
    if (fits && keepsAll(tried, member, full)) return tried;
  }
  return undefined;
}

/** The rows as they are where they keep the limits at the ends, else debonded there, else raised. */
function ends(
  rows: readonly StrandRow[],
  member: Member,
  full: number,
  mayRise: boolean,
  within: Within,
): readonly StrandRow[] | undefined {
  if (keepsAll(rows, member, full)) return rows;
  const rises = mayRise && within.spacing.mayRise;
  return debonded(rows, member, full) ?? (rises ? deflected(rows, member, full, within) : undefined);
}

/** Where a search begins, and what it passes over: layouts that were computed already. */
export interface Search {
  readonly atLeast: number;
  readonly isTried: (rows: readonly StrandRow[]) => boolean;
}

/**
 * The fewest strands that keep all limits: straight, with strands near the top, debonded at the ends, or deflected.
 * Undefined where no such layout does.
 */
export function strandLayout(
  member: Member,
  within: Within,
  full: number,
  { atLeast, isTried }: Search,
): readonly StrandRow[] | undefined {
  const [bottoms, tops] = [places(within, "bottom"), places(within, "top")];
  const isNew = (rows: readonly StrandRow[] | undefined): rows is readonly StrandRow[] => !!rows && !isTried(rows);
  for (let strands = atLeast; strands <= mostStrands; strands++) {
    for (let above = 0; above <= Math.min(strands / 2, 12); above++) {
      const high = filled(tops, above);
      if (!high) continue;
      for (const mostInRow of [Infinity, Math.ceil((strands - above) / 2), Math.ceil((strands - above) / 4)]) {
        const low = filled(bottoms, strands - above, Math.max(1, mostInRow));
        if (!low || low.length + high.length > mostRows) continue;
        const rows = [...low, ...high];
        if (!alikeInWebs(rows, within.section)) continue;
        if (!keeps(rows, member, member.L / 2, full)) continue;
        const found = ends(rows, member, full, above === 0, within);
        if (isNew(found)) return found;
      }
    }
  }
  return undefined;
}

/**
 * Rows with as many strands each, of which the number of rows, the strands in each or both are given: the fewest
 * strands that keep all limits, some rows near the top where that helps, debonded at the ends or deflected. Undefined
 * where no such layout does.
 */
export function equalRows(
  member: Member,
  within: Within,
  full: number,
  given: { readonly rows?: number | undefined; readonly each?: number | undefined },
  { atLeast, isTried }: Search,
): readonly StrandRow[] | undefined {
  const [bottoms, tops] = [places(within, "bottom"), places(within, "top")];
  const isNew = (rows: readonly StrandRow[] | undefined): rows is readonly StrandRow[] => !!rows && !isTried(rows);
  const rowsFrom = range(given.rows ?? 1, given.rows ?? mostRows);
  const layouts = rowsFrom
    .flatMap((rows) => range(given.each ?? 1, given.each ?? Math.floor(mostStrands / rows)).map((n) => ({ rows, n })))
    .filter(({ rows, n }) => rows * n >= atLeast)
    .sort((a, b) => a.rows * a.n - b.rows * b.n);
  for (const { rows, n } of layouts)
    for (const above of range(0, Math.floor(rows / 2)))
      for (const raised of range(0, bottoms.length - (rows - above))) {
        const chosen = [...bottoms.slice(raised, raised + rows - above), ...tops.slice(0, above)];
        if (chosen.length < rows || chosen.some(({ most }) => n > most)) continue;
        const straight = chosen.map(({ y }) => ({ n, yMid: y, yEnd: y, debond: 0 }));
        if (!alikeInWebs(straight, within.section) || !keeps(straight, member, member.L / 2, full)) continue;
        const found = ends(straight, member, full, above === 0, within);
        if (isNew(found)) return found;
      }
  return undefined;
}

const range = (from: number, to: number): readonly number[] =>
  Array.from({ length: Math.max(0, to - from + 1) }, (_, i) => from + i);
