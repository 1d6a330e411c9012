import { cut, withoutUnwritable } from "../../cells/index.ts";

/** What some system does not allow in the name of a file. */
const forbidden = /[<>:"/\\|?*]/g;
/** Names that a system keeps for its devices, whatever follows a point. */
const devices = /^(con|prn|aux|nul|com\d|lpt\d)(\.|$)/i;
const longest = 80;

/** A file's name for each of some names, all different for every system. */
export function fileNames(names: readonly string[]): ReadonlyMap<string, string> {
  const taken = new Set<string>();
  const out = new Map<string, string>();
  for (const name of names) {
    const plain =
      cut(withoutUnwritable(name, " ").replace(forbidden, "-").replace(/\s+/g, " ").trim(), longest).replace(
        /^\.+|[. ]+$/g,
        "",
      ) || "member";
    const stem = devices.test(plain) ? `${plain.replace(".", "-")}-` : plain;
    let free = stem;
    for (let n = 2; taken.has(free.toLowerCase()); n++) free = `${stem} ${n}`;
    taken.add(free.toLowerCase());
    out.set(name, `${free}.xlsx`);
  }
  return out;
}
