import { forbiddenIn, pictureIn } from "../../sheet/index.ts";
import { textFault } from "../keep/texts.ts";

/** No file of ours goes deeper; more of a kind than this is no sheet that anybody reads. */
const deepest = 24;
const most = { strings: 60_000, members: 1_000, shape: 100, rows: 20_000 } as const;

/** Names that the program or the language keeps for itself. */
const keptNames: ReadonlySet<string> = new Set(["__proto__", "constructor", "prototype"]);
/** An id of a row becomes the name kb_id of the sheet; these are the program's. */
const programsIds: ReadonlySet<string> = new Set(["functionsversion"]);

const formulaKeys: ReadonlySet<string> = new Set(["formula", "verdict", "where", "holds", "neededWhere"]);

/**
 * What a template's file holds that is never taken, whatever its configuration: formulas with functions that are not
 * allowed, addresses of the network, names of the program, and sizes that no sheet has. Each message says where.
 */
export function unsafeIn(file: object): readonly string[] {
  const out = new Set<string>();
  let strings = 0;
  const visit = (value: unknown, path: readonly string[], key: string): void => {
    if (out.size > 50) return;
    const place = path.join(" › ");
    if (path.length > deepest) {
      out.add(`${place}: the file goes deeper than templates do`);
      return;
    }
    if (typeof value === "string") {
      strings++;
      textual(value, key, path, (what) => out.add(`${place}: ${what}`));
      return;
    }
    if (Array.isArray(value)) {
      (value as readonly unknown[]).forEach((one, i) => visit(one, [...path, nameOf(one) ?? String(i + 1)], key));
      return;
    }
    if (typeof value !== "object" || value === null) return;
    for (const [name, one] of Object.entries(value)) {
      if (keptNames.has(name)) out.add(`${place}: the name ${name} is not allowed`);
      else visit(one, [...path, name], name);
    }
  };
  visit(file, [], "");
  if (strings > most.strings) out.add(`it holds ${strings} texts; at most ${most.strings} are read`);
  for (const problem of sizes(file)) out.add(problem);
  return [...out];
}

function nameOf(value: unknown): string | undefined {
  const { id, table } = (typeof value === "object" && value !== null ? value : {}) as Readonly<Record<string, unknown>>;
  return typeof id === "string" ? id : typeof table === "string" ? table : undefined;
}

function textual(text: string, key: string, path: readonly string[], add: (what: string) => void): void {
  if (key === "$schema") return;
  if (key === "image" && path.join() === "logo,image") {
    const picture = pictureIn(text);
    if (typeof picture === "string") add(picture);
    return;
  }
  if (key === "id" && programsIds.has(text.toLowerCase())) add(`the id ${text} is a name of the program`);
  const inCells = path.at(-2) === "cells" && text.startsWith("=");
  const inSummary = path.at(-2) === "summary" && (key === "value" || key === "limit");
  const inParts = path.at(-2) === "formulas";
  if (formulaKeys.has(key) || inCells || inSummary || inParts) {
    for (const problem of forbiddenIn(text)) add(problem);
    // A text in a formula is no link, but nobody needs the address of a server in one.
    if (/https?:/i.test(text)) add("a formula holds the address of a server");
    return;
  }
  const fault = textFault(text);
  if (fault !== undefined) add(fault);
}

/** How large a sheet may become: counted, never built. */
function sizes(file: object): readonly string[] {
  const { shape, dimensions, blocks } = file as Readonly<Record<string, unknown>>;
  const out: string[] = [];
  const largest = new Map<string, number>();
  for (const one of objects(shape)) {
    const max = typeof one.max === "number" ? one.max : 1;
    largest.set(String(one.id), max);
    if (max > most.shape) out.push(`shape › ${String(one.id)}: it goes up to ${max}; at most ${most.shape}`);
  }
  if (out.length > 0) return out;
  const all = (typeof dimensions === "object" && dimensions !== null ? dimensions : {}) as Readonly<
    Record<string, Readonly<Record<string, unknown>>>
  >;
  const tables = new Map<string, Readonly<Record<string, unknown>>>();
  for (const item of objects(blocks).flatMap((block) => objects(block.items)))
    if (typeof item.table === "string") tables.set(item.table, item);
  const open = new Set<string>();
  const members = (id: string): number => {
    const spec = all[id];
    if (!spec || open.has(id)) return 1;
    open.add(id);
    const count =
      typeof spec.count === "string"
        ? (largest.get(spec.count) ?? 1) + (typeof spec.plus === "number" ? spec.plus : 0)
        : typeof spec.size === "number"
          ? spec.size
          : typeof spec.within === "string"
            ? members(spec.within)
            : typeof spec.rowsOf === "string"
              ? rows(tables.get(spec.rowsOf))
              : Array.isArray(spec.members)
                ? spec.members.length
                : 1;
    open.delete(id);
    return count;
  };
  const rows = (table: Readonly<Record<string, unknown>> | undefined): number =>
    table === undefined
      ? 1
      : [table, ...objects(table.parts)].reduce(
          (sum, { over }) =>
            sum + (Array.isArray(over) ? over : []).reduce((product: number, id) => product * members(String(id)), 1),
          0,
        );
  for (const id of Object.keys(all)) {
    const count = members(id);
    if (count > most.members && !("rowsOf" in all[id]!))
      out.push(`dimensions › ${id}: it has up to ${count} members; at most ${most.members}`);
  }
  const total = [...tables.values()].reduce((sum, table) => sum + rows(table), 0);
  if (total > most.rows) out.push(`its tables have up to ${total} rows; at most ${most.rows}`);
  return out;
}

function objects(value: unknown): readonly Readonly<Record<string, unknown>>[] {
  return Array.isArray(value)
    ? (value as readonly unknown[]).filter(
        (one): one is Readonly<Record<string, unknown>> => typeof one === "object" && one !== null,
      )
    : [];
}
