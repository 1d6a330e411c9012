import { quantities } from "./define.ts";

/** Ages of concrete and times of steel. Ages count from casting. */
export const time = quantities({
  concreteAge: {
    symbol: "t",
    unit: "days",
    text: "age of concrete",
    sort: "concrete age",
    min: 0,
    typical: [1, 36525],
  },
  ageAtLoading: {
    symbol: "t_0",
    unit: "days",
    text: "age of concrete at loading",
    sort: "concrete age",
    above: 0,
    typical: [0.5, 3650],
  },
  ageAtEndOfCuring: {
    symbol: "t_s",
    unit: "days",
    text: "age of concrete at the end of curing, when drying begins",
    sort: "concrete age",
    min: 0,
    typical: [1, 28],
  },
  temperatureAdjustedAge: {
    symbol: "t_T",
    unit: "days",
    text: "temperature-adjusted age of concrete",
    sort: "temperature-adjusted age",
    min: 0,
  },
  stepsPerDecade: {
    symbol: "n",
    unit: "–",
    text: "steps of time in each power of ten",
    min: 2,
    max: 100,
    whole: true,
    typical: [5, 50],
  },
  relaxationMultiple: {
    symbol: "r",
    unit: "–",
    text: "relaxation in the end over relaxation after 1000 h",
    min: 1,
    max: 5,
  },
  duration: { symbol: "Δt", unit: "days", text: "duration", sort: "duration", min: 0 },
  curingTemperature: { symbol: "T", unit: "°C", text: "mean concrete temperature during Δt", min: 0, max: 80 },
  timeAfterTensioning: {
    symbol: "t",
    unit: "h",
    reads: "h",
    text: "time after tensioning",
    sort: "time after tensioning",
    min: 0,
    typical: [1, 876600],
  },
});
