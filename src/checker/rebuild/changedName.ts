import { cut } from "../../cells/index.ts";
import { longestSheetName, type Inputs, type InputValue, type Template } from "../../sheet/index.ts";

/** A sheet in one configuration. */
export interface Configured {
  readonly template: Template;
  readonly inputs: Inputs;
}

/** Between what a sheet was called and what it has become. */
const parts = " – ";
/** A name shortened further tells nobody which member it is. */
const shortest = 10;
/** Changes that one name has room for. */
const most = 2;

const counted =
  (one: string, several = `${one}s`) =>
  (value: InputValue): string =>
    `${String(value)} ${value === 1 ? one : several}`;
const either =
  (yes: string, no: string) =>
  (value: InputValue): string =>
    value === "YES" ? yes : no;
const among =
  (words: Readonly<Record<string, string>>) =>
  (value: InputValue): string | undefined =>
    words[String(value)];

/** Each configuration in a word or two. */
const words: Readonly<Record<string, (value: InputValue) => string | undefined>> = {
  section: among({ RECTANGLE: "rectangle", T: "T-section", I: "I-section", BOX: "box" }),
  tendons: counted("tendon"),
  rows: counted("row"),
  points: counted("point"),
  intervals: counted("interval"),
  lifted: either("lifted", "not lifted"),
  deflected: either("deflected", "straight"),
  twoJacks: either("two jacks", "one jack"),
  detailing: either("detailing", "no detailing"),
  web: either("web", "no web"),
  loads: among({ UNIFORM: "uniform loads", FURTHER: "point loads", MOMENTS: "moments" }),
  cracking: among({ UNCRACKED: "uncracked", ALLOWED: "cracked" }),
};

/** "IS 1343-1980": names of sheets take no colon. */
const standardWords = ({ standard }: Template): string =>
  (/^[^,(]*?:\d{4}/.exec(standard)?.[0] ?? standard.split(",")[0]!).replace(":", "-");

/** All that the name of a sheet may say of how it is configured. */
function allWords({ template, inputs }: Configured): ReadonlySet<string> {
  const own = template.shape.flatMap(({ id }) => words[id]?.(inputs[id] ?? null) ?? []);
  return new Set([standardWords(template), template.version, ...own]);
}

/** What has changed, in words; undefined where that is nothing, too much for a name, or has no word. */
function changedWords(from: Configured, to: Configured, oldVersion: string): string | undefined {
  if (from.template.id !== to.template.id) {
    const standard = standardWords(to.template);
    return standard === standardWords(from.template) ? undefined : standard;
  }
  const changed = to.template.shape.filter(({ id }) => (from.inputs[id] ?? null) !== (to.inputs[id] ?? null));
  if (changed.length === 0) return oldVersion === to.template.version ? undefined : to.template.version;
  const said = changed.map(({ id }) => words[id]?.(to.inputs[id] ?? null));
  return said.length > most || said.some((one) => one === undefined) ? undefined : said.join(", ");
}

/**
 * What the sheet that a change makes is to be called: "Beam – IS 1343-1980", "Beam – 4 tendons"; the name of the sheet it
 * comes from where the change has no short word. Whether it is taken is asked where it is built.
 */
export function changedName(sheet: string, from: Configured, to: Configured, oldVersion: string): string {
  const at = sheet.lastIndexOf(parts);
  const before =
    at < 0
      ? []
      : sheet
          .slice(at + parts.length)
          .replace(/ \d+$/, "")
          .split(", ");
  // What the sheet was called after an earlier change goes, if it still is true; what somebody typed stays.
  const known = allWords(from);
  const isOurs = before.length > 0 && before.every((one) => known.has(one));
  const base = isOurs ? sheet.slice(0, at) : sheet;
  const said = changedWords(from, to, oldVersion);
  if (said === undefined) return base;
  const room = longestSheetName - parts.length - said.length;
  if (room < Math.min(shortest, base.length)) return base;
  return `${(base.length > room ? cut(base, room) : base).trimEnd()}${parts}${said}`;
}
