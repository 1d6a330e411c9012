import { areaA1, type Area, type PlannedChart, type Series } from "../../sheet/index.ts";
import { axisTitle, lookOfCharts } from "../chartLook.ts";
import { quotedSheet } from "../sheetName.ts";
import { defaultStyle } from "../styles.ts";
import type { Values } from "./cells.ts";
import { chartArea, type Heights } from "./measures.ts";
import { element, part, textElement } from "./xml.ts";

const drawing = "http://schemas.openxmlformats.org/drawingml/2006/main";
export const namespaceOfCharts = "http://schemas.openxmlformats.org/drawingml/2006/chart";
const bare = (color: string): string => color.slice(1).toUpperCase();
const colors = lookOfCharts.series.map(({ color }) => bare(color));
const limitColor = bare(lookOfCharts.limit);
const gridColor = bare(lookOfCharts.grid);
const frameColor = bare(lookOfCharts.frame);
const ink = bare(defaultStyle.color!);
const marks = lookOfCharts.series.map(({ mark }) => mark);
/** Points of the drawing's own unit. */
const point = 12_700;

const val = (name: string, value: string | number): string => element(name, { val: value });
const fill = (color: string): string => element("a:solidFill", {}, val("a:srgbClr", color));
const stroke = (color: string, width: number, dash?: string): string => element("a:ln", { w: Math.round(width * point), cap: "rnd" }, fill(color), ...(dash ? [val("a:prstDash", dash)] : []), element("a:round"));

function words(text: string, size: number, bold: boolean): string {
  const look = { lang: "en-GB", sz: size * 100, b: bold ? 1 : 0 };
  return element("c:tx", {}, element("c:rich", {}, element("a:bodyPr"), element("a:lstStyle"), element("a:p", {}, element("a:pPr", {}, element("a:defRPr", { sz: look.sz, b: look.b }, fill(ink))), element("a:r", {}, element("a:rPr", look, fill(ink)), textElement("a:t", text)))));
}

const title = (text: string, size: number, bold: boolean): string => element("c:title", {}, words(text, size, bold), val("c:overlay", 0));

/** The cells of a series with what they show; cells without a number are gaps. */
function numbers(sheetName: string, area: Area, values: Values): string {
  const shown = Array.from({ length: area.rows }, (_, i) => values[area.row + i]?.[area.column]?.value ?? null);
  const points = shown.flatMap((value, idx) => (typeof value === "number" ? [element("c:pt", { idx }, element("c:v", {}, String(value)))] : []));
  return element("c:numRef", {}, element("c:f", {}, `${quotedSheet(sheetName).replaceAll("&", "&amp;")}!${areaA1(area)}`), element("c:numCache", {}, element("c:formatCode", {}, "General"), val("c:ptCount", area.rows), ...points));
}

function seriesXml({ name, kind, x, y }: Series, i: number, valuesBefore: number, sheetName: string, values: Values): string {
  const color = kind === "limit" ? limitColor : colors[valuesBefore % colors.length]!;
  const symbol = marks[valuesBefore % marks.length]!;
  const marker = kind === "limit" ? val("c:symbol", "none") : val("c:symbol", symbol) + val("c:size", 4) + element("c:spPr", {}, ...(symbol === "star" || symbol === "x" ? [element("a:noFill")] : [fill(color)]), stroke(color, 0.75));
  return element(
    "c:ser", {},
    val("c:idx", i), val("c:order", i), element("c:tx", {}, textElement("c:v", name)),
    element("c:spPr", {}, stroke(color, 1.5, kind === "limit" ? "dash" : undefined)), element("c:marker", {}, marker),
    element("c:xVal", {}, numbers(sheetName, x, values)), element("c:yVal", {}, numbers(sheetName, y, values)), val("c:smooth", 0),
  );
}

const small = element("c:txPr", {}, element("a:bodyPr"), element("a:lstStyle"), element("a:p", {}, element("a:pPr", {}, element("a:defRPr", { sz: 800 }, fill(ink))), element("a:endParaRPr", { lang: "en-GB" })));

function axis(id: number, other: number, position: "b" | "l", text: string): string {
  return element(
    "c:valAx", {},
    val("c:axId", id), element("c:scaling", {}, val("c:orientation", "minMax")), val("c:delete", 0), val("c:axPos", position),
    element("c:majorGridlines", {}, element("c:spPr", {}, stroke(gridColor, 0.5))), title(text, 9, false),
    element("c:numFmt", { formatCode: "General", sourceLinked: 0 }), val("c:majorTickMark", "out"), val("c:minorTickMark", "none"),
    // Numbers stand at the edge, also where the axes cross at zero within the chart.
    val("c:tickLblPos", "low"), element("c:spPr", {}, stroke(ink, 0.75)), small, val("c:crossAx", other), val("c:crosses", "autoZero"), val("c:crossBetween", "midCat"),
  );
}

/** A scatter chart of the program's own, with the points as computed. Limits are dashed and have no marks. */
export function chartXml(chart: PlannedChart, sheetName: string, values: Values): string {
  let before = 0;
  const series = chart.series.map((one, i) => seriesXml(one, i, one.kind === "limit" ? before : before++, sheetName, values));
  return part(element(
    "c:chartSpace", { "xmlns:c": namespaceOfCharts, "xmlns:a": drawing },
    val("c:roundedCorners", 0),
    element(
      "c:chart", {},
      title(chart.title, 11, true), val("c:autoTitleDeleted", 0),
      element("c:plotArea", {}, element("c:layout"), element("c:scatterChart", {}, val("c:scatterStyle", "lineMarker"), val("c:varyColors", 0), ...series, val("c:axId", 1), val("c:axId", 2)), axis(1, 2, "b", axisTitle(chart.x)), axis(2, 1, "l", axisTitle(chart.y))),
      element("c:legend", {}, val("c:legendPos", "b"), val("c:overlay", 0), small),
      val("c:plotVisOnly", 1), val("c:dispBlanksAs", "gap"),
    ),
    element("c:spPr", {}, fill("FFFFFF"), stroke(frameColor, 0.75)),
  ));
}

/** Puts the charts on the sheet, each over the cells the plan gives it. `r:id` counts the charts. */
export function drawingXml(charts: readonly PlannedChart[], heights: Heights): string {
  const corner = (name: string, column: number, row: number): string => element(name, {}, element("xdr:col", {}, String(column)), element("xdr:colOff", {}, "0"), element("xdr:row", {}, String(row)), element("xdr:rowOff", {}, "0"));
  return part(element(
    "xdr:wsDr", { "xmlns:xdr": "http://schemas.openxmlformats.org/drawingml/2006/spreadsheetDrawing", "xmlns:a": drawing },
    ...charts.map(({ id, title: descr, at }, i) => element(
      "xdr:twoCellAnchor", { editAs: "oneCell" },
      corner("xdr:from", at.column, at.row), corner("xdr:to", at.column + at.columns, at.row + chartArea(at, heights).rows),
      element(
        "xdr:graphicFrame", { macro: "" },
        element("xdr:nvGraphicFramePr", {}, element("xdr:cNvPr", { id: i + 2, name: id, descr }), element("xdr:cNvGraphicFramePr")),
        element("xdr:xfrm", {}, element("a:off", { x: 0, y: 0 }), element("a:ext", { cx: 0, cy: 0 })),
        element("a:graphic", {}, element("a:graphicData", { uri: namespaceOfCharts }, element("c:chart", { "xmlns:c": namespaceOfCharts, "xmlns:r": "http://schemas.openxmlformats.org/officeDocument/2006/relationships", "r:id": `rId${i + 1}` }))),
      ),
      element("xdr:clientData"),
    )),
  ));
}
