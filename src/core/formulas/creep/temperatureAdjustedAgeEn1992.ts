import { stepwise } from "../../formula.ts";
import { format, table } from "../../parameters.ts";
import { q } from "../../quantities/index.ts";

/** From here on concrete is heated rather than warm, and not for longer than this. Common practice, no source. */
const heat = 40;
const longestHeat = 2;

/** Age that counts each span of time by its temperature. */
export const temperatureAdjustedAgeEn1992 = stepwise({
  id: "TEMPERATURE_ADJUSTED_AGE_EN1992_2004",
  family: "creep",
  summary: "Temperature-adjusted age of concrete from spans of time at mean temperatures",
  notes: [
    "Temperatures outside 0 to 80 °C are refused: the clause does not cover them.",
    "A day at 20 °C counts 0.998 days.",
  ],
  source: { key: "EN1992-1-1:2004", clause: "Annex B.1(3) (B.10)", basis: "seen", readIn: "CE:2021" },
  params: {
    history: table({
      key: "temperatureHistory",
      symbol: "T, Δt",
      text: "temperature history",
      columns: { T: q.curingTemperature, dt: q.duration },
      minRows: 1,
    }),
  },
  // Heat curing is planned in hours, this function counts days; ordinary temperatures may last for days.
  cautions: ({ history }) =>
    history.flatMap(({ T, dt }, i) =>
      T >= heat && dt > longestHeat
        ? [`Δt in row ${i + 1} = ${format(dt)} days at ${format(T)} °C is long for heat curing. A value in hours?`]
        : [],
    ),
  result: q.temperatureAdjustedAge,
  steps: {
    t_T: {
      symbol: "t_T",
      unit: "days",
      clause: "(B.10)",
      governing: "t_T = \\sum_i \\Delta t_i \\, e^{-\\left(\\frac{4000}{273 + T_i} - 13.65\\right)}",
    },
  },
  compute: ({ history }) => ({
    t_T: history.reduce((sum, { T, dt }) => sum + dt * Math.exp(-(4000 / (273 + T) - 13.65)), 0),
  }),
  // The constant factor taken out of the sum, and the rows taken backwards.
  proof: ({ history }, { t_T }) => {
    const again = Math.exp(13.65) * history.reduceRight((sum, { T, dt }) => sum + dt / Math.exp(4000 / (273 + T)), 0);
    return t_T === 0 ? again : again / t_T - 1;
  },
  empirical: "a fit to tests, with temperatures in °C",
  unpublished: "no published result was found; the second way in `proof` and the rate at 20 °C are tested",
});
