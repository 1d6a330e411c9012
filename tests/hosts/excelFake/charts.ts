import { areaA1 } from "../../../src/cells/index.ts";
import { guard, type RangeTarget, type SheetTarget } from "./services.ts";
import type { FakeChart, FakeSeries } from "./state.ts";
import { act, Misuse, OfficeError, strictObject, targetOf, type Handle, type Property, type Shape } from "./strict.ts";

const areaOf = (range: object): string => areaA1(targetOf<RangeTarget>(range, "Range").areas[0]!, false);

interface SeriesTarget {
  readonly chart: FakeChart;
  readonly series: FakeSeries;
}

const inLook = (key: string): Property<SeriesTarget> => ({
  read: ({ series }) => series.look[key],
  write: ({ series }, value: unknown) => {
    series.look[key] = value;
  },
});

const seriesShape: Shape<SeriesTarget> = {
  kind: "ChartSeries",
  properties: {
    name: { read: ({ series }) => series.name },
    ...Object.fromEntries(
      ["smooth", "markerStyle", "markerSize", "markerForegroundColor", "markerBackgroundColor"].map((key) => [
        key,
        inLook(key),
      ]),
    ),
  },
  parts: {
    format: ({ context, target }) =>
      strictObject<SeriesTarget>(
        context,
        {
          kind: "ChartSeriesFormat",
          parts: {
            line: () =>
              strictObject<SeriesTarget>(
                context,
                {
                  kind: "ChartLineFormat",
                  properties: {
                    color: inLook("line.color"),
                    weight: inLook("line.weight"),
                    lineStyle: inLook("line.lineStyle"),
                  },
                },
                target,
              ),
          },
        },
        target,
      ),
  },
  methods: {
    setXAxisValues: (self, range: object) =>
      act(self, "setXAxisValues", ({ series }) => {
        series.x = areaOf(range);
      }),
    setValues: (self, range: object) =>
      act(self, "setValues", ({ series }) => {
        series.y = areaOf(range);
      }),
    delete: (self) =>
      act(self, "delete", ({ chart, series }) => {
        chart.series.splice(chart.series.indexOf(series), 1);
      }),
  },
};

const seriesCollection: Shape<FakeChart> = {
  kind: "ChartSeriesCollection",
  items: { shape: seriesShape, of: (chart) => chart.series.map((series): SeriesTarget => ({ chart, series })) },
  methods: {
    add: (self: Handle<FakeChart>, name: string) => {
      let made: SeriesTarget | undefined;
      act(self, "add", (chart) => {
        const series: FakeSeries = { name, x: "", y: "", look: {} };
        chart.series.push(series);
        made = { chart, series };
      });
      return strictObject(self.context, seriesShape, () => made);
    },
  },
};

function recorded(kind: string, keys: readonly string[]): Shape<FakeChart> {
  return {
    kind,
    properties: Object.fromEntries(
      keys.map((key): [string, Property<FakeChart>] => [
        key,
        {
          read: () => {
            throw new Misuse(`the fake does not keep ${kind}.${key}`);
          },
          write: () => undefined,
        },
      ]),
    ),
  };
}

function oneOf(key: "scaleType" | "position", allowed: readonly string[]): Property<FakeChart> {
  return {
    read: (chart) => chart.scale[key],
    write: (chart, value: string) => {
      if (!allowed.includes(value)) throw new Misuse(`ChartAxis.${key} is not ${value}`);
      chart.scale[key] = value;
    },
  };
}

const scale: Readonly<Record<string, Property<FakeChart>>> = {
  scaleType: oneOf("scaleType", ["Linear", "Logarithmic"]),
  position: oneOf("position", ["Automatic", "Maximum", "Minimum", "Custom"]),
  logBase: {
    read: (chart) => chart.scale.logBase,
    write: (chart, value: number) => {
      if (!(value >= 2 && value <= 1000))
        throw new OfficeError("InvalidArgument", `${value} is no base of a logarithm`);
      chart.scale.logBase = value;
    },
  },
};

const turned: Readonly<Record<string, Property<FakeChart>>> = {
  reversePlotOrder: {
    read: (chart) => chart.reversed,
    write: (chart, value: boolean) => {
      chart.reversed = value;
    },
  },
};

function axis(which: "category" | "value"): Shape<FakeChart> {
  return {
    kind: "ChartAxis",
    properties: {
      ...recorded("ChartAxis", ["tickLabelPosition"]).properties,
      ...(which === "category" ? scale : turned),
    },
    parts: {
      title: ({ context, target }) =>
        strictObject<FakeChart>(
          context,
          {
            kind: "ChartAxisTitle",
            properties: {
              text: {
                read: ({ axes }) => axes[which],
                write: (chart, value: string) => {
                  chart.axes[which] = value;
                },
              },
            },
          },
          target,
        ),
      majorGridlines: ({ context, target }) =>
        strictObject<FakeChart>(
          context,
          {
            ...recorded("ChartGridlines", ["visible"]),
            parts: {
              format: () =>
                strictObject<FakeChart>(
                  context,
                  {
                    kind: "ChartGridlinesFormat",
                    parts: { line: () => strictObject(context, recorded("ChartLineFormat", ["color"]), target) },
                  },
                  target,
                ),
            },
          },
          target,
        ),
    },
  };
}

const chartShape: Shape<FakeChart> = {
  kind: "Chart",
  properties: {
    name: {
      read: ({ name }) => name,
      write: (chart, value: string) => {
        chart.name = value;
      },
    },
  },
  parts: {
    series: ({ context, target }) => strictObject(context, seriesCollection, target),
    title: ({ context, target }) =>
      strictObject<FakeChart>(
        context,
        {
          kind: "ChartTitle",
          properties: {
            text: {
              read: ({ title }) => title,
              write: (chart, value: string) => {
                chart.title = value;
              },
            },
          },
        },
        target,
      ),
    legend: ({ context, target }) => strictObject(context, recorded("ChartLegend", ["position", "visible"]), target),
    axes: ({ context, target }) =>
      strictObject<FakeChart>(
        context,
        {
          kind: "ChartAxes",
          parts: {
            categoryAxis: () => strictObject(context, axis("category"), target),
            valueAxis: () => strictObject(context, axis("value"), target),
          },
        },
        target,
      ),
  },
  methods: {
    setPosition: (self, first: object, last: object) =>
      act(self, "setPosition", (chart) => {
        chart.position = `${areaOf(first)}:${areaOf(last)}`;
      }),
  },
};

export const charts: Shape<SheetTarget> = {
  kind: "ChartCollection",
  methods: {
    add: (self: Handle<SheetTarget>, type: string, source: object, by: string) => {
      if (type !== "XYScatterLines" || by !== "Columns") throw new Misuse(`the fake knows no chart ${type} by ${by}`);
      let made: FakeChart | undefined;
      act(self, "add", (target) => {
        guard(target, "a chart");
        // The program guesses a series from the cells it is given.
        made = {
          type,
          name: "",
          title: "",
          axes: { category: "", value: "" },
          scale: { scaleType: "Linear", logBase: 10, position: "Automatic" },
          reversed: false,
          position: "",
          series: [{ name: "Series1", x: "", y: areaOf(source), look: {} }],
        };
        target.sheet.charts.push(made);
      });
      return strictObject(self.context, chartShape, () => made);
    },
  },
};
