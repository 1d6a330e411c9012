/** Date and time with the zone, as sheets that are filed say it. */
export function now(): string {
  return new Date().toLocaleString("en-GB", { dateStyle: "long", timeStyle: "short", timeZone: "UTC" }) + " UTC";
}
