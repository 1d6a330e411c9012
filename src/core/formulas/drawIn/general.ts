import { InputError } from "../../errors.ts";
import { stepwise, type Formula } from "../../formula.ts";
import { format, table } from "../../parameters.ts";
import { q } from "../../quantities/index.ts";
import { ways } from "../friction/ways.ts";
import { mechanics } from "../mechanics.ts";
import { jackingEnd } from "../tendon/controlPoints.ts";
import { pulledAt } from "./pulled.ts";
import { drawIn, lengthError, levelError, type FallingStress } from "./search.ts";

const rule = "2\\int_0^{l_a} \\left(\\sigma(s) - \\sigma_a\\right) ds = \\Delta\\,E_p";
const notes = [
  "One rule for every case: the area between the stress before and after draw-in equals Δ·E_p. Where the dead end is reached, σ_a lies below the stress there; where a kink stops the draw-in, between the stresses before and behind it.",
  "After draw-in the stress at a place is min(σ, 2σ_a − σ), the mirrored line of common practice. Friction that follows its own law on the way back would leave σ_a²/σ, which is more by (σ − σ_a)²/σ.",
];

const answers = [
  {
    name: "DRAW_IN_LEVEL_STRESS",
    pick: "level",
    summary: "Stress at which the draw-in of the anchorage ends",
    result: { ...q.tendonStress, symbol: "σ_a", text: "stress at which the draw-in ends" },
    symbol: "σ_a",
    unit: "MPa",
  },
  {
    name: "DRAW_IN_LENGTH",
    pick: "length",
    summary: "Length of tendon affected by the draw-in of the anchorage",
    result: { ...q.controlX, symbol: "l_a", text: "length affected by the draw-in" },
    symbol: "l_a",
    unit: "m",
  },
] as const;

const error = (pick: "level" | "length"): typeof levelError => (pick === "level" ? levelError : lengthError);

const ofTendon = ways.flatMap((way) =>
  answers.map(
    ({ name, pick, summary, result, symbol, unit }) =>
      stepwise({
        id: `${name}${way.suffix}`,
        family: "drawIn",
        summary: `${summary}, jacked from one end; ${way.says}`,
        notes: [...notes, ...way.notes],
        source: way.source,
        params: {
          ...way.tendon,
          end: jackingEnd,
          sigma0: q.jackingStress,
          ...way.friction,
          slip: q.drawIn,
          E_p: q.tendonModulus,
        },
        result,
        steps: { [pick]: { symbol, unit, governing: `${rule},\\quad \\sigma(s) = \\sigma_{p0}\\,e^{-(${way.tex})}` } },
        compute: (v) => ({ [pick]: drawIn(pulledAt(way, v, v.end, v.sigma0), v.slip, v.E_p)[pick] }),
        proof: (v, steps) => error(pick)(pulledAt(way, v, v.end, v.sigma0), steps[pick]!, v.slip, v.E_p),
        unpublished:
          "The published results take the fall of stress as straight between a few points; they stand at the forms for a table and for a uniform fall.",
      }) as unknown as Formula,
  ),
);

const stations = table({
  key: "stressAlongTendon",
  symbol: "σ(s)",
  text: "stress along the tendon from the jack",
  columns: { s: q.distanceFromJack, sigma: q.tendonStress },
  minRows: 2,
});

function throughStations(rows: readonly { readonly s: number; readonly sigma: number }[]): FallingStress {
  if (rows[0]!.s !== 0)
    throw new InputError(
      "stations",
      `the first station lies at ${format(rows[0]!.s / 1000)} m from the jack; it must be 0 m`,
    );
  rows.forEach((row, i) => {
    const before = rows[i - 1];
    if (before && row.s <= before.s)
      throw new InputError(
        "stations",
        `station ${i + 1} at ${format(row.s / 1000)} m does not lie beyond station ${i} at ${format(before.s / 1000)} m; distances must increase`,
      );
    if (before && row.sigma > before.sigma)
      throw new InputError(
        "stations",
        `the stress rises from ${format(before.sigma)} MPa at station ${i} to ${format(row.sigma)} MPa at station ${i + 1}; after friction it must fall from the jack`,
      );
  });
  return {
    stress: (s) => {
      const i = Math.min(
        rows.length - 1,
        Math.max(
          1,
          rows.findIndex((row) => row.s >= s),
        ),
      );
      const [a, b] = [rows[i - 1]!, rows[i]!];
      return a.sigma + ((b.sigma - a.sigma) * (s - a.s)) / (b.s - a.s);
    },
    length: rows.at(-1)!.s,
    breaks: rows.map((row) => row.s),
  };
}

const ofStations = answers.map(
  ({ name, pick, summary, result, symbol, unit }) =>
    stepwise({
      id: `${name}_TABLE`,
      family: "drawIn",
      summary: `${summary}, from a table of the stress after friction`,
      notes: [...notes, "Between stations the stress is taken as linear."],
      source: mechanics,
      params: { stations, slip: q.drawIn, E_p: q.tendonModulus },
      result,
      steps: { [pick]: { symbol, unit, governing: rule } },
      compute: (v) => ({ [pick]: drawIn(throughStations(v.stations), v.slip, v.E_p)[pick] }),
      proof: (v, steps) => error(pick)(throughStations(v.stations), steps[pick]!, v.slip, v.E_p),
    }) as unknown as Formula,
);

export const drawInGeneral: readonly Formula[] = [...ofTendon, ...ofStations];
