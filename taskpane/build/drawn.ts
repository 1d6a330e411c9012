import type * as Plots from "@observablehq/plot";
import type { PlannedChart } from "../../src/sheet/index.ts";
import { plainSymbol } from "../../src/typeset/index.ts";
import { decades, decadesApart, decadeText, type Line } from "./chartData.ts";

export const dashes = ["none", "7 3", "2 3", "9 3 2 3", "4 2", "12 4"];
export const symbols = ["circle", "square", "triangle", "diamond", "plus", "star"] as const;
/** Points stand without a line, larger and in the colour of the text. */
export const pointSymbols = ["diamond", "square", "triangle", "circle"] as const;

/** What an axis is called: its symbol and unit. */
export const axisText = ({ label, unit }: PlannedChart["x"]): string =>
  `${plainSymbol(label)}${unit && unit !== "–" ? ` (${unit})` : ""}`;

/** Far from zero the axis starts near the values, so that lines close together can be told apart. */
function showsZero(lines: readonly Line[]): boolean {
  const ys = lines.flatMap((l) => l.points.map((p) => p.y));
  return Math.min(...ys) < 0.5 * Math.max(...ys);
}

/** The picture of a chart, so many pixels wide; how its lines look is in the stylesheet of the page or document. */
export function drawn(
  Plot: typeof Plots,
  chart: PlannedChart,
  lines: readonly Line[],
  width: number,
): SVGSVGElement | HTMLElement {
  const values = lines.filter((l) => l.kind === "value");
  const limits = lines.filter((l) => l.kind === "limit");
  const points = lines.filter((l) => l.kind === "point");
  const outlines = lines.filter((l) => l.kind === "outline");
  // Not drawn: they make the axes of a drawing equally long, in a square place.
  const frames = lines.filter((l) => l.kind === "frame");
  const powers = chart.x.log ? decades(lines.flatMap((l) => l.points.map((p) => p.x))) : undefined;
  const [left, right] = [54, powers ? 26 : 12];
  const apart = powers ? decadesApart((width - left - right) / (powers.length - 1)) : 1;
  const power = (value: number): string => (Math.round(Math.log10(value)) % apart === 0 ? decadeText(value) : "");
  const svg = Plot.plot({
    width,
    height: frames.length > 0 ? width - left - right + 64 : Math.round(Math.max(200, width * 0.55)),
    marginLeft: left,
    marginBottom: 38,
    marginTop: 26,
    marginRight: right,
    className: "kb-plot",
    x: {
      label: axisText(chart.x),
      labelAnchor: "center",
      labelArrow: "none",
      ...(powers
        ? { type: "log", domain: [powers[0]!, powers.at(-1)!], ticks: powers, tickFormat: power, grid: true }
        : { ticks: 6 }),
    },
    y: {
      label: axisText(chart.y),
      grid: true,
      labelArrow: "none",
      ticks: 6,
      nice: true,
      reverse: chart.y.down === true,
    },
    marks: [
      ...(showsZero(lines) ? [Plot.ruleY([0], { className: "kb-zero" })] : []),
      ...values.flatMap((l, i) => [
        Plot.line(l.points as { x: number; y: number }[], {
          x: "x",
          y: "y",
          className: `kb-series kb-series-${i % 6}`,
          strokeDasharray: dashes[i % 6]!,
          strokeWidth: 1.8,
        }),
        Plot.dot(l.points as { x: number; y: number }[], {
          x: "x",
          y: "y",
          className: `kb-series kb-mark kb-series-${i % 6}`,
          symbol: symbols[i % 6]!,
          r: 2.6,
        }),
      ]),
      ...limits.map((l) =>
        Plot.line(l.points as { x: number; y: number }[], {
          x: "x",
          y: "y",
          className: "kb-limit",
          strokeWidth: 2.6,
          strokeDasharray: "1.5 3.5",
        }),
      ),
      ...outlines.map((l) =>
        Plot.line(l.points as { x: number; y: number }[], {
          x: "x",
          y: "y",
          className: "kb-outline",
          strokeWidth: 1.8,
          curve: "linear",
        }),
      ),
      ...frames.map((l) =>
        Plot.dot(l.points as { x: number; y: number }[], { x: "x", y: "y", r: 0, className: "kb-frame" }),
      ),
      ...points.map((l, i) =>
        Plot.dot(l.points as { x: number; y: number }[], {
          x: "x",
          y: "y",
          className: "kb-point",
          symbol: pointSymbols[i % pointSymbols.length]!,
          r: 5.5,
        }),
      ),
    ],
  });
  // The library's own style element would be refused by a strict content-security policy; ours is in the stylesheet.
  svg.querySelector("style")?.remove();
  return svg;
}
