import { NoResult } from "../../errors.ts";
import { stepwise } from "../../formula.ts";
import { as, format, table, type ValueOf } from "../../parameters.ts";
import { q } from "../../quantities/index.ts";
import type { Source } from "../../sources.ts";

const history = table({
  key: "maturityHistory",
  symbol: "T, Δt",
  text: "temperature steps from casting on, in order",
  columns: { T: q.curingTemperature, dt: q.curingHours },
  minRows: 1,
});
type History = ValueOf<typeof history>;

const source: Source = { key: "NURSE-SAUL", basis: "memory-high" };
const datum = as(q.datumTemperature, { default: -10 });
const shared = {
  family: "bed",
  source,
  empirical: "a rule with temperatures in °C and hours",
} as const;
const notes = [
  "Concrete of one mix gains the same strength at the same maturity; what strength goes with a maturity is found by cubes " +
    "or cylinders of this mix, never by this function. A plan for the cycle of a bed, no proof of strength: release only " +
    "after a test.",
  "The datum differs between books: −10 °C, −11 °C in Indian ones, 0 °C in others. Take the same in trial and bed.",
];
const rate = (T: number, T_d: number): number => Math.max(T - T_d, 0);

/** Temperature and time as one number. */
export const maturity = stepwise({
  ...shared,
  id: "MATURITY",
  summary: "Maturity of concrete from spans of time at mean temperatures: temperature above the datum times time",
  notes,
  params: { history, T_d: datum },
  result: as(q.maturity, { max: 1e12 }),
  steps: { M: { symbol: "M", unit: "°C·h", governing: "M = \\sum_i \\max(T_i - T_d,\\ 0)\\,\\Delta t_i" } },
  compute: ({ history: rows, T_d }) => ({ M: rows.reduce((sum, { T, dt }) => sum + rate(T, T_d) * dt, 0) }),
  // Whole time above the datum, less what lies colder.
  proof: ({ history: rows, T_d }, { M }) => {
    const all = rows.reduce((sum, { T, dt }) => sum + T * dt, 0);
    const hours = rows.reduce((sum, { dt }) => sum + dt, 0);
    const colder = rows.reduce((sum, { T, dt }) => sum + Math.min(T - T_d, 0) * dt, 0);
    return (all - T_d * hours - colder - M) / (1 + M);
  },
  unpublished: "its published results are recalled, not read; the second way in `proof` is tested",
});

/** The steps up to the hour at which a maturity is reached. */
function reached(rows: History, wanted: number, T_d: number): number {
  let [hours, sum] = [0, 0];
  for (const { T, dt } of rows) {
    const gained = rate(T, T_d) * dt;
    if (sum + gained >= wanted * (1 - 1e-12)) return hours + (wanted - sum) / rate(T, T_d);
    [hours, sum] = [hours + dt, sum + gained];
  }
  throw new NoResult(
    `M = ${format(wanted)} °C·h is not reached: ${format(hours)} h of the history give ${format(sum)} °C·h; add time or heat`,
  );
}

/** When the concrete of a bed is ready to be tested for release. */
export const maturityTime = stepwise({
  ...shared,
  id: "MATURITY_TIME",
  summary: "Time by the clock at which concrete reaches a maturity along its temperature steps",
  notes,
  params: { history, M: as(q.maturity, { text: "maturity wanted, as the trial showed", above: 0 }), T_d: datum },
  result: q.curingClock,
  steps: {
    t_M: {
      symbol: "t_M",
      unit: "h",
      reads: "h",
      governing: "\\int_0^{t_M} \\max(T - T_d,\\ 0)\\,dt = M",
    },
  },
  compute: ({ history: rows, M, T_d }) => ({ t_M: reached(rows, M, T_d) }),
  /** The maturity of what lies before that hour. */
  proof: ({ history: rows, M, T_d }, { t_M }) => {
    let [open, sum] = [t_M, 0];
    for (const { T, dt } of rows) {
      const taken = Math.min(Math.max(open, 0), dt);
      sum += rate(T, T_d) * taken;
      open -= dt;
    }
    return sum / M - 1;
  },
});
