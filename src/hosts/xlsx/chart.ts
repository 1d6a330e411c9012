import { type Area, areaA1, quotedSheet } from "../../cells/index.ts";
import type { PlacedLogo, PlannedChart, Series } from "../../sheet/index.ts";
import type { CellValue } from "../host/host.ts";
import { axisTitle, isToScale, lookOfCharts, namedSeries } from "../look/chartLook.ts";
import { plotArea, type Size } from "../look/plotArea.ts";
import { defaultStyle } from "../look/styles.ts";
import { logoXml } from "./logo.ts";
import { element, part, textElement } from "./xml.ts";

/** What cells show, by `row column`. */
type Values = ReadonlyMap<string, CellValue>;

const drawing = "http://schemas.openxmlformats.org/drawingml/2006/main";
const namespaceOfCharts = "http://schemas.openxmlformats.org/drawingml/2006/chart";
const bare = (color: string): string => color.slice(1).toUpperCase();
const { sizes } = lookOfCharts;
const colors = lookOfCharts.series.map(({ color }) => bare(color));
const limitColor = bare(lookOfCharts.limit);
const gridColor = bare(lookOfCharts.grid);
const frameColor = bare(lookOfCharts.frame);
const ink = bare(defaultStyle.color!);
/** Points of the drawing's own unit. */
const point = 12_700;

const val = (name: string, value: string | number): string => element(name, { val: value });
const fill = (color: string): string => element("a:solidFill", {}, val("a:srgbClr", color));
const stroke = (color: string, width: number, dash?: string): string =>
  element(
    "a:ln",
    { w: Math.round(width * point), cap: "rnd" },
    fill(color),
    ...(dash ? [val("a:prstDash", dash)] : []),
    element("a:round"),
  );

function words(text: string, size: number, bold: boolean): string {
  const look = { lang: "en-GB", sz: size * 100, b: bold ? 1 : 0 };
  return element(
    "c:tx",
    {},
    element(
      "c:rich",
      {},
      element("a:bodyPr"),
      element("a:lstStyle"),
      element(
        "a:p",
        {},
        element("a:pPr", {}, element("a:defRPr", { sz: look.sz, b: look.b }, fill(ink))),
        element("a:r", {}, element("a:rPr", look, fill(ink)), textElement("a:t", text)),
      ),
    ),
  );
}

const title = (text: string, size: number, bold: boolean): string =>
  element("c:title", {}, words(text, size, bold), val("c:overlay", 0));

const shown = (area: Area, values: Values): CellValue[] =>
  Array.from({ length: area.rows }, (_, i) => values.get(`${area.row + i} ${area.column}`) ?? null);

/** The cells of a series with what they show; cells without a number are gaps, and so are those that the axis has no place for. */
function numbers(sheetName: string, area: Area, values: Values, left: readonly boolean[]): string {
  const points = shown(area, values).flatMap((value, idx) =>
    typeof value === "number" && !left[idx] ? [element("c:pt", { idx }, element("c:v", {}, String(value)))] : [],
  );
  return element(
    "c:numRef",
    {},
    element("c:f", {}, `${quotedSheet(sheetName).replaceAll("&", "&amp;")}!${areaA1(area)}`),
    element("c:numCache", {}, element("c:formatCode", {}, "General"), val("c:ptCount", area.rows), ...points),
  );
}

function seriesXml(
  { name, kind, x, y }: Series,
  i: number,
  before: number,
  { x: { log } }: PlannedChart,
  sheetName: string,
  values: Values,
): string {
  const color = { limit: limitColor, point: ink, outline: ink, frame: ink, value: colors[before % colors.length]! }[
    kind
  ];
  const symbol =
    kind === "point"
      ? lookOfCharts.points[before % lookOfCharts.points.length]!
      : lookOfCharts.series[before % colors.length]!.mark;
  const marked = kind === "value" || kind === "point";
  const marker = !marked
    ? val("c:symbol", "none")
    : val("c:symbol", symbol) +
      val("c:size", kind === "point" ? sizes.point : sizes.mark) +
      element(
        "c:spPr",
        {},
        ...(symbol === "star" || symbol === "x" ? [element("a:noFill")] : [fill(color)]),
        stroke(color, 0.75),
      );
  const line =
    kind === "point" || kind === "frame"
      ? element("a:ln", { w: Math.round(1.5 * point) }, element("a:noFill"))
      : stroke(color, 1.5, kind === "limit" ? "dash" : undefined);
  const left = log ? shown(x, values).map((value) => typeof value === "number" && value <= 0) : [];
  return element(
    "c:ser",
    {},
    val("c:idx", i),
    val("c:order", i),
    element("c:tx", {}, textElement("c:v", name)),
    element("c:spPr", {}, line),
    element("c:marker", {}, marker),
    element("c:xVal", {}, numbers(sheetName, x, values, left)),
    element("c:yVal", {}, numbers(sheetName, y, values, left)),
    val("c:smooth", 0),
  );
}

const small = element(
  "c:txPr",
  {},
  element("a:bodyPr"),
  element("a:lstStyle"),
  element(
    "a:p",
    {},
    element("a:pPr", {}, element("a:defRPr", { sz: 900 }, fill(ink))),
    element("a:endParaRPr", { lang: "en-GB" }),
  ),
);

interface AxisLook {
  readonly log?: true | undefined;
  /** The axis that it crosses is logarithmic and has no zero, so that it stands at the least value. */
  readonly logAcross?: true | undefined;
  readonly down?: true | undefined;
  /** The axis that it crosses grows downward, so that its numbers stand at the high end, below. */
  readonly downAcross?: true | undefined;
  /** Where the axis begins and ends; the program's choice where it is not said. */
  readonly ends?: readonly [number, number] | undefined;
}

function axis(
  id: number,
  other: number,
  position: "b" | "l",
  text: string,
  { log, logAcross, down, downAcross, ends }: AxisLook,
): string {
  return element(
    "c:valAx",
    {},
    val("c:axId", id),
    element(
      "c:scaling",
      {},
      ...(log ? [val("c:logBase", 10)] : []),
      val("c:orientation", down ? "maxMin" : "minMax"),
      ...(ends ? [val("c:max", ends[1]), val("c:min", ends[0])] : []),
    ),
    val("c:delete", 0),
    val("c:axPos", position),
    element("c:majorGridlines", {}, element("c:spPr", {}, stroke(gridColor, 0.5))),
    title(text, 9, false),
    element("c:numFmt", { formatCode: "General", sourceLinked: 0 }),
    val("c:majorTickMark", "out"),
    val("c:minorTickMark", "none"),
    // Numbers stand at the edge, also where the axes cross at zero within the chart.
    val("c:tickLblPos", downAcross ? "high" : "low"),
    element("c:spPr", {}, stroke(ink, 0.75)),
    small,
    val("c:crossAx", other),
    val("c:crosses", logAcross ? "min" : "autoZero"),
    val("c:crossBetween", "midCat"),
  );
}

function layout(chart: PlannedChart, size: Size): string {
  const { x, y, w, h } = plotArea(chart, size);
  const shares = Object.entries({ x, y, w, h }).map(([name, share]) => val(`c:${name}`, share.toFixed(4)));
  const modes = [val("c:layoutTarget", "inner"), val("c:xMode", "edge"), val("c:yMode", "edge")];
  return element("c:layout", {}, element("c:manualLayout", {}, ...modes, ...shares));
}

/** The axis of places ends where the member does, not at the next round number. */
function endsOf({ x, series }: PlannedChart, values: Values): readonly [number, number] | undefined {
  if (x.log || x.unit !== "m") return undefined;
  const places = series.flatMap((one) => shown(one.x, values)).filter((value) => typeof value === "number");
  const [from, to] = [Math.min(...places), Math.max(...places)];
  return places.length > 1 && from < to ? [from, to] : undefined;
}

/** The names of the lines; an outline needs none, nor a drawing that holds nothing else but points. */
function legend(chart: PlannedChart): readonly string[] {
  if (isToScale(chart)) return [];
  const named = namedSeries(chart);
  const unnamed = chart.series.flatMap((one, i) =>
    named.has(one) ? [] : [element("c:legendEntry", {}, val("c:idx", i), val("c:delete", 1))],
  );
  return [element("c:legend", {}, val("c:legendPos", "b"), ...unnamed, val("c:overlay", 0), small)];
}

/** A scatter chart of the program's own, with the points as computed. Limits are dashed and have no marks, points have no line. */
export function chartXml(chart: PlannedChart, sheetName: string, values: Values, size: Size): string {
  const before = { value: 0, limit: 0, point: 0, outline: 0, frame: 0 };
  const series = chart.series.map((one, i) => seriesXml(one, i, before[one.kind]++, chart, sheetName, values));
  return part(
    element(
      "c:chartSpace",
      { "xmlns:c": namespaceOfCharts, "xmlns:a": drawing },
      val("c:roundedCorners", 0),
      element(
        "c:chart",
        {},
        title(chart.title, 11, true),
        val("c:autoTitleDeleted", 0),
        element(
          "c:plotArea",
          {},
          layout(chart, size),
          element(
            "c:scatterChart",
            {},
            val("c:scatterStyle", "lineMarker"),
            val("c:varyColors", 0),
            ...series,
            val("c:axId", 1),
            val("c:axId", 2),
          ),
          axis(1, 2, "b", axisTitle(chart.x), {
            log: chart.x.log,
            downAcross: chart.y.down,
            ends: endsOf(chart, values),
          }),
          axis(2, 1, "l", axisTitle(chart.y), { logAcross: chart.x.log, down: chart.y.down }),
        ),
        ...legend(chart),
        val("c:plotVisOnly", 1),
        val("c:dispBlanksAs", "gap"),
      ),
      element("c:spPr", {}, fill("FFFFFF"), stroke(frameColor, 0.75)),
    ),
  );
}

/** Puts the charts on the sheet, each over its cells, and the logo. `r:id` counts the charts; the logo's comes behind them. */
export function drawingXml(charts: readonly PlannedChart[], logo?: PlacedLogo): string {
  const corner = (name: string, column: number, row: number): string =>
    element(
      name,
      {},
      element("xdr:col", {}, String(column)),
      element("xdr:colOff", {}, "0"),
      element("xdr:row", {}, String(row)),
      element("xdr:rowOff", {}, "0"),
    );
  return part(
    element(
      "xdr:wsDr",
      { "xmlns:xdr": "http://schemas.openxmlformats.org/drawingml/2006/spreadsheetDrawing", "xmlns:a": drawing },
      ...charts.map(({ id, title: descr, at }, i) =>
        element(
          "xdr:twoCellAnchor",
          { editAs: "oneCell" },
          corner("xdr:from", at.column, at.row),
          corner("xdr:to", at.column + at.columns, at.row + at.rows),
          element(
            "xdr:graphicFrame",
            { macro: "" },
            element(
              "xdr:nvGraphicFramePr",
              {},
              element("xdr:cNvPr", { id: i + 2, name: id, descr }),
              element("xdr:cNvGraphicFramePr"),
            ),
            element("xdr:xfrm", {}, element("a:off", { x: 0, y: 0 }), element("a:ext", { cx: 0, cy: 0 })),
            element(
              "a:graphic",
              {},
              element(
                "a:graphicData",
                { uri: namespaceOfCharts },
                element("c:chart", {
                  "xmlns:c": namespaceOfCharts,
                  "xmlns:r": "http://schemas.openxmlformats.org/officeDocument/2006/relationships",
                  "r:id": `rId${i + 1}`,
                }),
              ),
            ),
          ),
          element("xdr:clientData"),
        ),
      ),
      ...(logo ? [logoXml(logo, charts.length + 2, `rId${charts.length + 1}`)] : []),
    ),
  );
}
