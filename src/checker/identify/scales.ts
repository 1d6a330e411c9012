import { neighboursOf, type Quantity } from "../../core/index.ts";
import { inUnit, spelledUnit } from "../trace/units.ts";

/** A unit in which people keep a quantity, and what one of it is in the quantity's own unit. */
interface Scale {
  readonly name: string;
  readonly factor: number;
}

/** Units in use, most usual first. */
const written = [
  ..."mm m cm mm² m² cm² mm³ m³ cm³ mm⁴ m⁴ cm⁴".split(" "),
  ..."kN N MN kNm Nmm Nm MNm kNmm kNcm kN/m N/m kN/m³ kg/m kg/m³ t/m³".split(" "),
  ..."MPa kPa Pa GPa bar kN/cm² rad deg mrad 1/rad 1/m 1/km rad/m deg/m MPa/m".split(" "),
  ..."days h weeks years % – °C".split(" "),
];

/** Units that are tried where a label of the formula names one of them. */
const imperial = "in in² in³ in⁴ ft kip lbf ksi psi kip·in kip·ft 1/ft".split(" ");

/** Whether a label names a unit that is tried only then. */
export const isRare = (unit: string): boolean => /(?<![a-z])(?:in|ft|kips?|lbf|ksi|psi)(?![a-z])/i.test(unit);

const made = new Map<string, readonly Scale[]>();

/** Strains are written in parts of a million too; other plain numbers are not. */
function isStrain(q: Quantity): boolean {
  return q.unit === "–" && neighboursOf(q).some(({ factor }) => factor === 1e6);
}

/** More that the lists of units do not know. */
function furtherScales(q: Quantity): readonly Scale[] {
  const more: Scale[] = [];
  if (isStrain(q)) more.push({ name: "millionths", factor: 1e-6 }, { name: "per mille", factor: 1e-3 });
  if (q.unit === "days")
    more.push({ name: "years of 365 days", factor: 365 }, { name: "months of 30 days", factor: 30 });
  if (q.unit === "h") more.push({ name: "years of 365 days", factor: 8760 });
  if (q.unit === "1/rad") more.push({ name: "%", factor: 0.01 }, { name: "1/deg", factor: 180 / Math.PI });
  if (q.unit === "1/m" || q.unit === "rad/m")
    more.push({ name: "1/mm", factor: 1000 }, { name: "% per m", factor: 0.01 });
  if (q.unit === "MPa/m") more.push({ name: "MPa/mm", factor: 1000 }, { name: "kPa/m", factor: 1e-3 });
  return more;
}

/** The units in which a quantity may stand in a cell, its own first; with `all` rare ones too. */
export function scalesOf(q: Quantity, all = false): readonly Scale[] {
  const key = `${q.unit}${isStrain(q) ? "ε" : ""}${q.whole ? "#" : ""}${all ? "+" : ""}`;
  const known = made.get(key);
  if (known) return known;
  const out: Scale[] = [{ name: q.unit, factor: 1 }];
  if (!q.whole) {
    const named = [...written, ...(all ? imperial : [])].flatMap((name) => {
      const spelled = spelledUnit(name);
      const factor = spelled && inUnit(spelled, q.unit);
      return factor === undefined ? [] : [{ name, factor }];
    });
    for (const one of [...named, ...furtherScales(q)])
      if (!out.some(({ factor }) => Math.abs(factor / one.factor - 1) < 1e-12)) out.push(one);
  }
  made.set(key, out);
  return out;
}

/** The name of a unit by its factor. */
export function scaleName(q: Quantity, factor: number): string {
  return (
    scalesOf(q, true).find((s) => Math.abs(s.factor / Math.abs(factor) - 1) < 1e-12)?.name ?? `${factor} ${q.unit}`
  );
}
