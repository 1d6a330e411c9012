import { cautions } from "../../cautions.ts";
import { stepwise, type Formula } from "../../formula.ts";
import { as } from "../../parameters.ts";
import { q } from "../../quantities/index.ts";
import { ways, type Way } from "../friction/ways.ts";
import { jackingEnd, type End } from "../tendon/controlPoints.ts";
import { bySimpson, integrate, zero } from "../tendon/integrate.ts";
import { exponentFromBehind, pulledAt, type Pulled } from "./pulled.ts";
import { drawIn, levelError, type FallingStress } from "./search.ts";

interface Stressed {
  readonly end: End;
  readonly sigma_1: number;
  readonly sigma_2: number;
}

/** Where the let-down ends: half-way between both stresses at the jack, or the dead end. */
function letDown(
  { stress, length }: FallingStress,
  sigma_2: number,
): { readonly level: number; readonly length: number } {
  const level = (stress(0) + sigma_2) / 2;
  if (level >= stress(0)) return { level, length: 0 };
  return { level, length: stress(length) >= level ? length : zero((s) => stress(s) - level, 0, length) };
}

/** What letting down gives back at the jack, as a draw-in of the same effect: 2 ∫ max(σ − σ_a, 0) ds / E_p. */
function givenBack(tendon: FallingStress, sigma_2: number, E_p: number): number {
  const { level, length } = letDown(tendon, sigma_2);
  return (2 * (integrate(tendon.stress, 0, length, tendon.breaks) - length * level)) / E_p;
}

/** Draw-in after letting down: it goes on where the let-down stopped, so both give one draw-in. */
function anchored(
  tendon: FallingStress,
  sigma_2: number,
  slip: number,
  E_p: number,
): { readonly level: number; readonly length: number } {
  return slip === 0 ? letDown(tendon, sigma_2) : drawIn(tendon, slip + givenBack(tendon, sigma_2, E_p), E_p);
}

const notes = [
  "Jacked to σ_1, held, let down to σ_2, anchored. Letting down acts as a draw-in of which the stress left at the jack is given and not the length: the stress after friction is mirrored about (σ_1 + σ_2)/2.",
  "The draw-in goes on where the let-down stopped: after both the stress at a place is min(σ, 2σ_a − σ).",
];
const limits = ({ sigma_1 }: Stressed) => ({ sigma_2: { max: sigma_1, because: "the stress to which it was jacked" } });
const none = "No published number found; tests compare it with the draw-in of the same effect and with closed forms.";
const x = as(q.controlX, { text: "distance from the left end of the tendon" });
const both =
  "2\\int_0^{l_a}(\\sigma - \\sigma_a)\\,ds = \\Delta E_p + 2\\int_0^{l_1}\\left(\\sigma - \\tfrac{\\sigma_1 + \\sigma_2}{2}\\right)ds";
const overstress = "The stress at the jack is temporary, but every limit of the jacking stress holds for it.";

function forWay(way: Way): readonly Formula[] {
  const jack = {
    ...way.tendon,
    end: jackingEnd,
    sigma_1: as(q.jackingStress, { symbol: "σ_1", text: "greatest stress at the jack" }),
    sigma_2: as(q.jackingStress, { symbol: "σ_2", text: "stress at the jack when the anchorage is set" }),
    ...way.friction,
  };
  const says = `jacked from one end and let down before anchoring; ${way.says}`;
  const base = { source: way.source, unpublished: none, limits };
  const tendonOf = (v: Stressed): Pulled => pulledAt(way, v, v.end, v.sigma_1);
  const total = (v: Stressed & { readonly slip: number; readonly E_p: number }): number =>
    v.slip + givenBack(tendonOf(v), v.sigma_2, v.E_p);
  return [
    stepwise({
      ...base,
      id: `RELEASE_LENGTH${way.suffix}`,
      family: "drawIn",
      summary: `Length over which letting down at the jack lowers the stress, before draw-in; ${says}`,
      notes: [notes[0]!, ...way.notes, cautions.stressing],
      params: jack,
      result: { ...q.controlX, symbol: "l_1", text: "length affected" },
      steps: {
        l_1: {
          symbol: "l_1",
          unit: "m",
          governing: "\\sigma(l_1) = \\frac{\\sigma_1 + \\sigma_2}{2},\\ \\text{at most } L",
        },
      },
      compute: (v) => ({ l_1: letDown(tendonOf(v), v.sigma_2).length }),
      /** The stress just before the place lies above the middle of both, just behind it below. */
      proof: (v, { l_1 }) => {
        const { stress, length } = tendonOf(v);
        const [middle, step] = [(v.sigma_1 + v.sigma_2) / 2, 1e-9 * length];
        if (l_1 < 0 || l_1 > length) return Infinity;
        return (
          Math.max(
            l_1 - step <= 0 ? 0 : middle - stress(l_1 - step),
            l_1 + step >= length ? 0 : stress(l_1 + step) - middle,
            0,
          ) / v.sigma_1
        );
      },
    }),
    stepwise({
      ...base,
      id: `DRAW_IN_LEVEL_STRESS_RELEASE${way.suffix}`,
      family: "drawIn",
      summary: `Stress at which let-down and draw-in end together; ${says}`,
      notes: [...notes, ...way.notes, cautions.stressing],
      params: { ...jack, slip: q.drawIn, E_p: q.tendonModulus },
      result: { ...q.tendonLevelStress },
      steps: { sigma_a: { symbol: "σ_a", unit: "MPa", governing: both } },
      compute: (v) => ({ sigma_a: anchored(tendonOf(v), v.sigma_2, v.slip, v.E_p).level }),
      proof: (v, { sigma_a }) => levelError(tendonOf(v), sigma_a, total(v), v.E_p),
    }),
    stepwise({
      ...base,
      id: `TENDON_STRESS_RELEASE${way.suffix}`,
      family: "drawIn",
      summary: `Tendon stress at x after friction, let-down and draw-in; ${says}`,
      notes: [
        ...notes,
        "A draw-in of 0 gives the stress before anchoring.",
        ...way.notes,
        overstress,
        cautions.stressing,
      ],
      params: { ...jack, slip: q.drawIn, E_p: q.tendonModulus, x },
      result: { ...q.tendonStress, min: -2500 },
      steps: {
        sigma_f: {
          symbol: "σ_p,μ",
          unit: "MPa",
          text: "stress after friction at the greatest stress of the jack",
          governing: `\\sigma_1\\,e^{-(${way.tex})}`,
        },
        sigma_a: { symbol: "σ_a", unit: "MPa", text: "stress at which let-down and draw-in end", governing: both },
        sigma: { symbol: "σ_p", unit: "MPa", equation: "min(sigma_f, 2 * sigma_a - sigma_f)" },
      },
      compute: (v) => {
        const sigma_f = tendonOf(v).stress(way.distance(v, v.x, v.end));
        const sigma_a = anchored(tendonOf(v), v.sigma_2, v.slip, v.E_p).level;
        return { sigma_f, sigma_a, sigma: Math.min(sigma_f, 2 * sigma_a - sigma_f) };
      },
      proof: (v, { sigma_a, sigma }) => {
        const before = v.sigma_1 * Math.exp(-exponentFromBehind(way, v, v.end, way.distance(v, v.x, v.end)));
        return Math.max(
          Math.abs(levelError(tendonOf(v), sigma_a, total(v), v.E_p)),
          Math.abs(sigma - Math.min(before, 2 * sigma_a - before)) / v.sigma_1,
        );
      },
    }),
    stepwise({
      ...base,
      id: `TENDON_ELONGATION_RELEASE${way.suffix}`,
      family: "stressing",
      summary: `Elongation left at the jack after letting down, before draw-in; ${says}`,
      notes: [notes[0]!, ...way.notes, overstress, cautions.stressing],
      params: { ...jack, E_p: q.tendonModulus },
      result: q.elongation,
      steps: {
        full: {
          symbol: "Δl_1",
          unit: "mm",
          text: "elongation at the greatest stress",
          governing: "\\Delta l_1 = \\int_0^L \\frac{\\sigma}{E_p}\\,dl",
        },
        back: {
          symbol: "Δl_12",
          unit: "mm",
          text: "what letting down gives back",
          governing:
            "\\Delta l_{12} = \\frac{2}{E_p}\\int_0^{l_1}\\left(\\sigma - \\tfrac{\\sigma_1 + \\sigma_2}{2}\\right)dl",
        },
        elongation: { symbol: "Δl_2", unit: "mm", equation: "full - back" },
      },
      compute: (v) => {
        const { stress, stretch, breaks, length } = tendonOf(v);
        const down = letDown(tendonOf(v), v.sigma_2);
        const full = integrate((s) => stress(s) * stretch(s), 0, length, breaks) / v.E_p;
        const back = (2 * integrate((s) => (stress(s) - down.level) * stretch(s), 0, down.length, breaks)) / v.E_p;
        return { full, back, elongation: full - back };
      },
      /** Strain after letting down, summed by another rule. */
      proof: (v, { elongation }) => {
        const { stress, stretch, breaks, length } = tendonOf(v);
        const down = letDown(tendonOf(v), v.sigma_2);
        const again =
          bySimpson(
            (s) => Math.min(stress(s), 2 * down.level - stress(s)) * stretch(s),
            0,
            length,
            [...breaks, down.length].sort((a, b) => a - b),
          ) / v.E_p;
        return (elongation - again) / ((v.sigma_1 * length) / v.E_p);
      },
    }),
  ] as unknown as readonly Formula[];
}

export const releaseFormulas: readonly Formula[] = ways.flatMap(forWay);
