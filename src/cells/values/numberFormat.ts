import { textOfNumber } from "./convert.ts";
import { roundTo } from "./rounding.ts";
import { cannot } from "./values.ts";

/** A number of the plain formats: digits, grouping, per cent, exponent, with fixed texts before and behind. */
const plain = /^((?:"[^"]*"|\\.|[ ()+\-])*)([#,0]*0|#[#,]*)(?:\.([0#]+))?(?:(E[+-])(0+))?(%?)((?:"[^"]*"|\\.|[ ()])*)$/;

const unquoted = (text: string): string =>
  text.replace(/"([^"]*)"|\\(.)/g, (_, quoted?: string, single?: string) => quoted ?? single ?? "");

/** The text of a number by a format of the spreadsheet program. Formats beyond the plain ones cannot be computed here. */
export function formatted(value: number, format: string): string {
  if (/^general$/i.test(format)) return textOfNumber(value);
  if (format === "") return "";
  if (format === "@") return textOfNumber(value);
  const read = plain.exec(format);
  if (!read) return cannot(`TEXT with the format “${format}”`);
  const [, before = "", whole = "", decimals = "", exponent, powers = "", percent, behind = ""] = read;
  const least = (whole.match(/0/g) ?? []).length;
  const fixed = (decimals.match(/0/g) ?? []).length;
  if (exponent && (least !== 1 || whole.length !== 1)) return cannot(`TEXT with the format “${format}”`);
  const number = percent ? value * 100 : value;
  const digits = exponent
    ? Math.abs(number).toExponential(decimals.length)
    : decimal(Math.abs(number), decimals.length);
  const [mantissa, power = "0"] = digits.split("e") as [string, string?];
  const [int = "", fraction = ""] = mantissa.split(".");
  const shown = fraction.slice(0, fixed) + fraction.slice(fixed).replace(/0+$/, "");
  const padded = (int === "0" && least === 0 ? "" : int).padStart(least, "0");
  const grouped = whole.includes(",") ? padded.replace(/\B(?=(\d{3})+$)/g, ",") : padded;
  const sign = number < 0 && /[1-9]/.test(mantissa) ? "-" : "";
  const size = power.startsWith("-") ? "-" : exponent === "E+" ? "+" : "";
  const scientific = exponent ? `E${size}${power.replace(/^[+-]/, "").padStart(powers.length, "0")}` : "";
  return `${sign}${unquoted(before)}${grouped}${decimals ? `.${shown}` : ""}${scientific}${percent}${unquoted(behind)}`;
}

/** Rounded half away from zero, written without an exponent. */
function decimal(value: number, places: number): string {
  const rounded = roundTo(value, places, "nearest");
  return rounded < 1e21 ? rounded.toFixed(places) : cannot("TEXT of a number of more than 21 digits");
}
