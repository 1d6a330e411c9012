import type { PlannedChart } from "../../sheet/index.ts";
import { axisTitle, isToScale, lookOfCharts } from "../look/chartLook.ts";
import { chartArea, type Heights } from "../look/measures.ts";
import { defaultStyle } from "../look/styles.ts";
import { rangeOf } from "./areas.ts";

const markers = {
  circle: "Circle",
  square: "Square",
  diamond: "Diamond",
  triangle: "Triangle",
  star: "Star",
  x: "X",
} as const;

function drawSeries(sheet: Excel.Worksheet, chart: Excel.Chart, planned: PlannedChart): void {
  const before = { value: 0, limit: 0, point: 0, outline: 0, frame: 0 };
  for (const { name, kind, x, y } of planned.series) {
    const series = chart.series.add(name);
    series.setXAxisValues(rangeOf(sheet, x));
    series.setValues(rangeOf(sheet, y));
    series.smooth = false;
    const { line } = series.format;
    line.weight = 1.5;
    const nth = before[kind]++;
    if (kind === "limit") {
      line.color = lookOfCharts.limit;
      line.lineStyle = "Dash";
      series.markerStyle = "None";
    } else if (kind === "outline" || kind === "frame") {
      if (kind === "frame") line.lineStyle = "None";
      else line.color = defaultStyle.color!;
      series.markerStyle = "None";
    } else {
      const { color, mark } =
        kind === "point"
          ? { color: defaultStyle.color!, mark: lookOfCharts.points[nth % lookOfCharts.points.length]! }
          : lookOfCharts.series[nth % lookOfCharts.series.length]!;
      if (kind === "point") line.lineStyle = "None";
      else line.color = color;
      series.markerStyle = markers[mark];
      series.markerSize = kind === "point" ? lookOfCharts.sizes.point : lookOfCharts.sizes.mark;
      series.markerForegroundColor = color;
      series.markerBackgroundColor = color;
    }
  }
}

/** `numbers`: at the axis' own low end, or at its high one where the other axis grows downward. */
function drawAxis(axis: Excel.ChartAxis, text: string, numbers: "Low" | "High" = "Low"): void {
  axis.title.text = text;
  // Numbers stand at the edge, also where the axes cross at zero within the chart.
  axis.tickLabelPosition = numbers;
  axis.majorGridlines.visible = true;
  axis.majorGridlines.format.line.color = lookOfCharts.grid;
}

/** Scatter charts of the program's own, their series wired to the cells. */
export async function addCharts(
  sheet: Excel.Worksheet,
  charts: readonly PlannedChart[],
  heights: Heights,
): Promise<void> {
  if (charts.length === 0) return;
  const made = charts.map((planned) => {
    const chart = sheet.charts.add("XYScatterLines", rangeOf(sheet, planned.series[0]!.y), "Columns");
    chart.series.load("items/name");
    return { planned, chart };
  });
  await sheet.context.sync();
  for (const { planned, chart } of made) {
    // The program guesses series of its own from the cells a chart is made from.
    for (const guessed of chart.series.items) guessed.delete();
    drawSeries(sheet, chart, planned);
    chart.name = planned.id;
    chart.title.text = planned.title;
    chart.legend.position = "Bottom";
    chart.legend.visible = !isToScale(planned);
    drawAxis(chart.axes.categoryAxis, axisTitle(planned.x), planned.y.down ? "High" : "Low");
    if (planned.x.log) {
      chart.axes.categoryAxis.scaleType = "Logarithmic";
      chart.axes.categoryAxis.logBase = 10;
      // A logarithmic axis has no zero: the other one stands at its least value.
      chart.axes.categoryAxis.position = "Minimum";
    }
    drawAxis(chart.axes.valueAxis, axisTitle(planned.y));
    if (planned.y.down) chart.axes.valueAxis.reversePlotOrder = true;
    const { row, column, rows, columns } = chartArea(planned.at, heights);
    chart.setPosition(
      rangeOf(sheet, { row, column, rows: 1, columns: 1 }),
      rangeOf(sheet, { row: row + rows - 1, column: column + columns - 1, rows: 1, columns: 1 }),
    );
  }
}
