import type { Area } from "../../cells/index.ts";
import type { PlannedChart, Series } from "../../sheet/index.ts";
import { readReference } from "./address.ts";
import { all, at, child, type Element } from "./readXml.ts";

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

function cached(reference: Element): readonly (number | null)[] {
  const cache = at(reference, "c:numCache");
  const points = new Map(all(cache, "c:pt").map((pt) => [Number(pt.attributes["idx"]), Number(at(pt, "c:v").text)]));
  return Array.from({ length: Number(at(cache, "c:ptCount").attributes["val"]) }, (_, i) => points.get(i) ?? null);
}

function seriesOf(ser: Element): ReadSeries {
  const x = at(ser, "c:xVal", "c:numRef");
  const y = at(ser, "c:yVal", "c:numRef");
  const line = at(ser, "c:spPr", "a:ln");
  const kind = child(line, "a:noFill") ? "point" : child(line, "a:prstDash") ? "limit" : "value";
  return {
    name: at(ser, "c:tx", "c:v").text,
    kind,
    x: readReference(at(x, "c:f").text),
    y: readReference(at(y, "c:f").text),
    points: { x: cached(x), y: cached(y) },
  };
}

/** The anchors of a drawing: where each chart stands, its id and the relation to its part. */
export function readAnchors(
  drawing: Element,
): readonly { readonly id: string; readonly at: Area; readonly relation: string }[] {
  return all(drawing, "xdr:twoCellAnchor").map((anchor) => {
    const number = (corner: string, name: string): number => Number(at(anchor, corner, name).text);
    const row = number("xdr:from", "xdr:row");
    const column = number("xdr:from", "xdr:col");
    return {
      id: at(anchor, "xdr:graphicFrame", "xdr:nvGraphicFramePr", "xdr:cNvPr").attributes["name"]!,
      at: { row, column, rows: number("xdr:to", "xdr:row") - row, columns: number("xdr:to", "xdr:col") - column },
      relation: at(anchor, "xdr:graphicFrame", "a:graphic", "a:graphicData", "c:chart").attributes["r:id"]!,
    };
  });
}

export function readChart(root: Element, { id, at: place }: { readonly id: string; readonly at: Area }): ReadChart {
  const chart = at(root, "c:chart");
  const plot = at(chart, "c:plotArea");
  const axes = all(plot, "c:valAx");
  const axis = (position: string): PlannedChart["x"] => {
    const found = axes.find((one) => at(one, "c:axPos").attributes["val"] === position)!;
    return {
      ...axisOf(titleText(found)),
      ...(child(at(found, "c:scaling"), "c:logBase")?.attributes["val"] === "10" && { log: true }),
    };
  };
  const grows = (position: string): string | undefined =>
    child(
      at(
        axes.find((one) => at(one, "c:axPos").attributes["val"] === position)!,
        "c:scaling",
      ),
      "c:orientation",
    )?.attributes["val"];
  return {
    id,
    title: titleText(chart),
    x: axis("b"),
    y: { ...axis("l"), ...(grows("l") === "maxMin" && { down: true as const }) },
    series: all(at(plot, "c:scatterChart"), "c:ser").map(seriesOf),
    at: place,
  };
}
