import type { Area } from "../../cells/index.ts";
import type { PlannedChart, Series } from "../../sheet/index.ts";
import { readReference } from "./address.ts";
import { readLogoAnchor } from "./logo.ts";
import { all, at, child, NotThere, relationId, type Element } from "./readXml.ts";

export interface ReadSeries extends Series {
  /** The points the file shows before anything is computed; null where there is none. */
  readonly points: { readonly x: readonly (number | null)[]; readonly y: readonly (number | null)[] };
}

export interface ReadChart extends Omit<PlannedChart, "series"> {
  readonly series: readonly ReadSeries[];
}

const titleText = (of: Element): string => at(of, "c:title", "c:tx", "c:rich", "a:p", "a:r", "a:t").text;

function axisOf(text: string): PlannedChart["x"] {
  const m = /^(.*) \[([^[\]]*)\]$/.exec(text);
  return m ? { label: m[1]!, unit: m[2]! } : { label: text, unit: "–" };
}

/** No chart of a check sheet has more points in a series. */
const mostPoints = 100_000;

function cached(reference: Element): readonly (number | null)[] {
  const cache = at(reference, "c:numCache");
  const count = Number(at(cache, "c:ptCount").attributes["val"]);
  if (!Number.isInteger(count) || count < 0 || count > mostPoints)
    throw new NotThere(`${count} is no number of points`);
  const points = new Map(all(cache, "c:pt").map((pt) => [Number(pt.attributes["idx"]), Number(at(pt, "c:v").text)]));
  return Array.from({ length: count }, (_, i) => points.get(i) ?? null);
}

/** The series' name, which some programs keep as a formula with its value. */
function nameOf(ser: Element): string {
  const tx = at(ser, "c:tx");
  return child(tx, "c:v")?.text ?? at(tx, "c:strRef", "c:strCache", "c:pt", "c:v").text;
}

function kindOf(ser: Element): Series["kind"] {
  const line = at(ser, "c:spPr", "a:ln");
  const unmarked = child(child(ser, "c:marker"), "c:symbol")?.attributes["val"] === "none";
  if (child(line, "a:noFill")) return unmarked ? "frame" : "point";
  if (child(line, "a:prstDash") || child(line, "a:custDash")) return "limit";
  return unmarked ? "outline" : "value";
}

function seriesOf(ser: Element): ReadSeries {
  const x = at(ser, "c:xVal", "c:numRef");
  const y = at(ser, "c:yVal", "c:numRef");
  return {
    name: nameOf(ser),
    kind: kindOf(ser),
    x: readReference(at(x, "c:f").text),
    y: readReference(at(y, "c:f").text),
    points: { x: cached(x), y: cached(y) },
  };
}

/** Without the points, which are the cells' own values. */
export function withoutPoints({ series, ...chart }: ReadChart): PlannedChart {
  return { ...chart, series: series.map(({ points: _, ...one }) => one) };
}

interface Anchor {
  readonly id: string;
  readonly at: Area;
  readonly relation: string;
}

interface Anchors {
  readonly charts: readonly Anchor[];
  readonly logo: ReturnType<typeof readLogoAnchor>;
  readonly others: number;
}

/** Where the charts of a drawing stand, their ids and the relations to their parts; the logo; and how much else the drawing holds. */
export function readAnchors(drawing: Element): Anchors {
  const anchors = ["xdr:twoCellAnchor", "xdr:oneCellAnchor", "xdr:absoluteAnchor"].flatMap((name) =>
    all(drawing, name),
  );
  const charts = anchors.flatMap((anchor): readonly Anchor[] => {
    const frame = child(anchor, "xdr:graphicFrame");
    const chart = child(child(child(frame, "a:graphic"), "a:graphicData"), "c:chart");
    if (!frame || !chart || anchor.name !== "xdr:twoCellAnchor") return [];
    const number = (corner: string, name: string): number => Number(at(anchor, corner, name).text);
    // A corner within a cell takes that cell along.
    const end = (name: string, offset: string): number =>
      number("xdr:to", name) + (number("xdr:to", offset) > 0 ? 1 : 0);
    const row = number("xdr:from", "xdr:row");
    const column = number("xdr:from", "xdr:col");
    return [
      {
        id: at(frame, "xdr:nvGraphicFramePr", "xdr:cNvPr").attributes["name"] ?? "chart",
        at: { row, column, rows: end("xdr:row", "xdr:rowOff") - row, columns: end("xdr:col", "xdr:colOff") - column },
        relation: relationId(chart),
      },
    ];
  });
  const [logo] = anchors.flatMap((anchor) => readLogoAnchor(anchor) ?? []);
  return { charts, logo, others: anchors.length - charts.length - (logo ? 1 : 0) };
}

export function readChart(root: Element, { id, at: place }: { readonly id: string; readonly at: Area }): ReadChart {
  const chart = at(root, "c:chart");
  const plot = at(chart, "c:plotArea");
  const axes = all(plot, "c:valAx");
  const axisAt = (position: string): Element => {
    const found = axes.find((one) => at(one, "c:axPos").attributes["val"] === position);
    if (!found) throw new NotThere(`there is no axis ${position}`);
    return found;
  };
  const axis = (position: string): PlannedChart["x"] => {
    const found = axisAt(position);
    return {
      ...axisOf(titleText(found)),
      ...(child(at(found, "c:scaling"), "c:logBase")?.attributes["val"] === "10" && { log: true }),
    };
  };
  const grows = (position: string): string | undefined =>
    child(at(axisAt(position), "c:scaling"), "c:orientation")?.attributes["val"];
  return {
    id,
    title: titleText(chart),
    x: axis("b"),
    y: { ...axis("l"), ...(grows("l") === "maxMin" && { down: true as const }) },
    series: all(at(plot, "c:scatterChart"), "c:ser").map(seriesOf),
    at: place,
  };
}
