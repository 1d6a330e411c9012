/** Shifts the decimal point without the error of a multiplication. */
function shifted(value: number, places: number): number {
  const [digits, power = "0"] = String(value).split("e") as [string, string?];
  return Number(`${digits}e${Number(power) + places}`);
}

/** Rounds away from zero, towards zero or to the nearest (halves away from zero), on the 15 digits the programs keep. */
export function roundTo(value: number, places: number, how: "nearest" | "up" | "down"): number {
  const n = Math.trunc(places);
  const size = shifted(Number(Math.abs(value).toPrecision(15)), n);
  if (!Number.isFinite(size)) return value;
  const whole = how === "nearest" ? Math.floor(size + 0.5) : how === "up" ? Math.ceil(size) : Math.floor(size);
  return Math.sign(value) * shifted(whole, -n);
}

/** A number to the 15 digits that the programs keep; blocks and other values as they are. */
export function toFifteenDigits<T>(value: T): T | number {
  return typeof value === "number" ? Number(value.toPrecision(15)) : value;
}
