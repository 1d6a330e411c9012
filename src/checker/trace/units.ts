import { coherentUnit, unitFactor, unitNames, type Unit } from "../../core/index.ts";

/** A unit as people write it: one that the functions know, and how many of it one of the written makes. */
export interface SpelledUnit {
  readonly unit: Unit;
  readonly factor: number;
  /** In the coherent unit. */
  readonly size: number;
  /** As written. */
  readonly text: string;
}

/** Other spellings and sizes. By the written form without blanks, with ^, small differences of writing left out. */
const others: Readonly<Record<string, readonly [Unit, number]>> = {
  "-": ["–", 1],
  "—": ["–", 1],
  "1": ["–", 1],
  ratio: ["–", 1],
  nos: ["–", 1],
  dimensionless: ["–", 1],
  "mm/mm": ["–", 1],
  "m/m": ["–", 1],
  "mm/m": ["–", 1e-3],
  microstrain: ["–", 1e-6],
  µε: ["–", 1e-6],
  με: ["–", 1e-6],
  percent: ["%", 1],
  "per cent": ["%", 1],
  pct: ["%", 1],
  "‰": ["%", 0.1],
  cm: ["mm", 10],
  dm: ["mm", 100],
  in: ["mm", 25.4],
  ft: ["mm", 304.8],
  "cm²": ["mm²", 1e2],
  "m²": ["mm²", 1e6],
  "cm³": ["mm³", 1e3],
  "m³": ["mm³", 1e9],
  "cm⁴": ["mm⁴", 1e4],
  "m⁴": ["mm⁴", 1e12],
  "in²": ["mm²", 645.16],
  "in³": ["mm³", 16387.064],
  "in⁴": ["mm⁴", 416231.4256],
  sqmm: ["mm²", 1],
  mmsq: ["mm²", 1],
  sqcm: ["mm²", 1e2],
  sqm: ["mm²", 1e6],
  KN: ["kN", 1],
  Kn: ["kN", 1],
  tf: ["kN", 9.80665],
  kgf: ["N", 9.80665],
  "kgf/cm²": ["MPa", 0.0980665],
  "kg/cm²": ["MPa", 0.0980665],
  MN: ["kN", 1e3],
  kip: ["kN", 4.4482216152605],
  kips: ["kN", 4.4482216152605],
  lbf: ["N", 4.4482216152605],
  Nmm: ["N·mm", 1],
  Nm: ["N·mm", 1e3],
  kNmm: ["N·mm", 1e3],
  kNm: ["kN·m", 1],
  MNm: ["kN·m", 1e3],
  kNcm: ["kN·m", 1e-2],
  kipin: ["kN·m", 0.1129848290276167],
  "kip-in": ["kN·m", 0.1129848290276167],
  inkip: ["kN·m", 0.1129848290276167],
  inkips: ["kN·m", 0.1129848290276167],
  "in-kips": ["kN·m", 0.1129848290276167],
  kipft: ["kN·m", 1.3558179483314004],
  "kip-ft": ["kN·m", 1.3558179483314004],
  ftkips: ["kN·m", 1.3558179483314004],
  "ft-kips": ["kN·m", 1.3558179483314004],
  "N/m": ["N/mm", 1e-3],
  "MN/m": ["kN/m", 1e3],
  "N/mm²": ["MPa", 1],
  "MN/m²": ["MPa", 1],
  "kN/mm²": ["GPa", 1],
  kPa: ["MPa", 1e-3],
  Pa: ["MPa", 1e-6],
  "N/m²": ["MPa", 1e-6],
  "kN/m²": ["MPa", 1e-3],
  "kN/cm²": ["MPa", 10],
  ksi: ["MPa", 6.89475729316836],
  psi: ["MPa", 6.89475729316836e-3],
  bars: ["bar", 1],
  deg: ["rad", Math.PI / 180],
  degree: ["rad", Math.PI / 180],
  degrees: ["rad", Math.PI / 180],
  "°": ["rad", Math.PI / 180],
  mrad: ["rad", 1e-3],
  radian: ["rad", 1],
  radians: ["rad", 1],
  perrad: ["1/rad", 1],
  "/rad": ["1/rad", 1],
  "rad-1": ["1/rad", 1],
  "/m": ["1/m", 1],
  "m-1": ["1/m", 1],
  "rad^-1": ["1/rad", 1],
  perm: ["1/m", 1],
  "m^-1": ["1/m", 1],
  "m⁻¹": ["1/m", 1],
  "rad⁻¹": ["1/rad", 1],
  "1/km": ["1/m", 1e-3],
  "1/ft": ["1/m", 1 / 0.3048],
  "/ft": ["1/m", 1 / 0.3048],
  perft: ["1/m", 1 / 0.3048],
  "deg/m": ["rad/m", Math.PI / 180],
  "°/m": ["rad/m", Math.PI / 180],
  day: ["days", 1],
  d: ["days", 1],
  week: ["days", 7],
  weeks: ["days", 7],
  year: ["days", 365.25],
  years: ["days", 365.25],
  a: ["days", 365.25],
  hour: ["h", 1],
  hours: ["h", 1],
  hr: ["h", 1],
  hrs: ["h", 1],
  C: ["°C", 1],
  "℃": ["°C", 1],
  degC: ["°C", 1],
  degreesC: ["°C", 1],
  "t/m³": ["kg/m³", 1e3],
};

const known = new Map<string, readonly [Unit, number]>();
/** The written form without what is written in several ways. */
function plain(text: string): string {
  return text
    .trim()
    .replace(/[\s·.*×⋅]/g, "")
    .replace(/\^?2(?!\d)/g, "²")
    .replace(/\^?3(?!\d)/g, "³")
    .replace(/\^?4(?!\d)/g, "⁴")
    .replace(/\^²/g, "²")
    .replace(/−/g, "-")
    .replace(/(?<=[A-Za-z])-(?=[a-z])/g, "");
}
for (const name of unitNames) known.set(plain(name), [name, 1]);
for (const [text, entry] of Object.entries(others)) known.set(plain(text), entry);
const bySmall = new Map(
  [...known].filter(([text]) => text.length > 2).map(([text, entry]) => [text.toLowerCase(), entry]),
);

const raised = "⁰¹²³⁴⁵⁶⁷⁸⁹";
/** "10^6 mm^4", "×10⁶ mm⁴", "x10-6", "E6 mm4": a power of ten before a unit, or alone. */
const powers: readonly RegExp[] = [
  /^[x×*·]?\s*10\s*\^\s*\(?([-−+]?\d{1,2})\)?[\s·*]*(.*)$/i,
  /^[x×*·]\s*10\s*([-−+]?\d{1,2})(?![\d.])[\s·*]*(.*)$/i,
  /^[x×*·]?\s*10([⁻⁺]?[⁰¹²³⁴⁵⁶⁷⁸⁹]{1,2})[\s·*]*(.*)$/i,
  /^[x×*·]?\s*E([-−+]?\d{1,2})[\s·*]+(\S.*)$/i,
];

function powerOfTen(text: string): { readonly power: number; readonly rest: string } | undefined {
  for (const pattern of powers) {
    const found = pattern.exec(text);
    if (!found) continue;
    const digits = [...found[1]!]
      .map((c) => (raised.includes(c) ? String(raised.indexOf(c)) : /[-−⁻]/.test(c) ? "-" : /[+⁺]/.test(c) ? "" : c))
      .join("");
    return { power: Number(digits), rest: found[2]!.trim() };
  }
  return undefined;
}

/** The unit a text names, such as "kN", "N/mm2", "[MPa]", "10^6 mm4", "per cent"; undefined where it names none. */
export function spelledUnit(text: string): SpelledUnit | undefined {
  const inside = text
    .trim()
    .replace(/^[[(](.*)[\])]$/, "$1")
    .replace(/^in (?=\S)/, "");
  if (inside === "" || inside.length > 16) return undefined;
  const scaled = powerOfTen(inside);
  const name = scaled ? scaled.rest || "–" : inside;
  const found = known.get(plain(name)) ?? bySmall.get(plain(name).toLowerCase());
  if (!found) return undefined;
  const [unit, each] = found;
  const factor = scaled ? each * 10 ** scaled.power : each;
  return { unit, factor, size: factor * unitFactor(unit, coherentUnit(unit)), text: inside };
}

/** Whether a factor is a power of ten, as most are that turn one unit into another. */
export function isPowerOfTen(factor: number): boolean {
  const power = Math.log10(Math.abs(factor));
  return Math.abs(power - Math.round(power)) < 1e-9;
}

/** What one of a written unit is in a unit of the functions; undefined where the dimensions differ. A per cent is a hundredth. */
export function inUnit(given: SpelledUnit, wanted: Unit): number | undefined {
  const own = coherentUnit(given.unit);
  const other = coherentUnit(wanted);
  const size = unitFactor(wanted, other);
  if (own === other) return given.size / size;
  if (own === "%" && other === "–") return given.size / 100 / size;
  if (own === "–" && other === "%") return (given.size * 100) / size;
  return undefined;
}
