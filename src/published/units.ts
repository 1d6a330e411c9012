import { unitFactor, unitNames, type Unit } from "../core/index.ts";

/** Units that sources print and cells do not have: the cell unit and the factor to it. */
const foreign: Readonly<Record<string, readonly [Unit, number]>> = {
  "": ["–", 1],
  "‰": ["–", 1e-3],
  "1e-6": ["–", 1e-6],
  cm: ["mm", 10],
  "cm²": ["mm²", 100],
  "m²": ["mm²", 1e6],
  "m⁴": ["mm⁴", 1e12],
  "cm³": ["mm³", 1e3],
  "cm⁴": ["mm⁴", 1e4],
  kPa: ["MPa", 1e-3],
  "kgf/cm²": ["MPa", 0.0980665],
  "kgf·cm": ["kN·m", 9.80665e-5],
  MN: ["kN", 1e3],
  "g/m": ["kg/m", 1e-3],
  kgf: ["kN", 9.80665e-3],
  "t/m²": ["MPa", 0.01],
  "kN/mm²": ["GPa", 1],
  in: ["mm", 25.4],
  ft: ["m", 0.3048],
  "in²": ["mm²", 25.4 ** 2],
  "in³": ["mm³", 25.4 ** 3],
  "in⁴": ["mm⁴", 25.4 ** 4],
  kip: ["kN", 4.4482216152605],
  ksi: ["MPa", 4448.2216152605 / 25.4 ** 2],
  psi: ["MPa", 4.4482216152605 / 25.4 ** 2],
  "kip·in": ["kN·m", 4.4482216152605 * 0.0254],
  "kip·ft": ["kN·m", 4.4482216152605 * 0.3048],
  "kip/ft": ["kN/m", 4.4482216152605 / 0.3048],
};

const isUnit = (name: string): name is Unit => (unitNames as readonly string[]).includes(name);

function known(name: string): readonly [Unit, number] {
  const unit = isUnit(name) ? ([name, 1] as const) : foreign[name];
  if (!unit) throw new Error(`“${name}” is no unit the checks know`);
  return unit;
}

/** The factor that takes a value in `from` to `to`; throws where either is unknown or the dimensions differ. */
export function convert(value: number, from: string, to: string): number {
  if (from === to) return value;
  const [a, intoA] = known(from);
  const [b, intoB] = known(to);
  return (value * intoA * unitFactor(a, b)) / intoB;
}
