import { bookOfSheets } from "./bookOfSheets.ts";
import {
  type Book,
  nameKey,
  type PlacedArea,
  placeOf,
  type Snapshot,
  type Mentioned,
  addMentioned,
} from "../../cells/index.ts";
import { takeSnapshot } from "./takeSnapshot.ts";
import type { Host } from "../../hosts/index.ts";

/**
 * Reads a sheet (or takes it as it was read) with every sheet that its formulas refer to, and theirs in turn, and the
 * workbook's names they use; `also`: further sheets to be read with it.
 */
export async function readBook(host: Host, from: string | Snapshot, also: readonly Snapshot[] = []): Promise<Book> {
  const first = typeof from === "string" ? await takeSnapshot(host, from) : from;
  const present = new Map((await host.sheetNames()).map((name) => [name.toLowerCase(), name]));
  const read = new Map([[first.sheet.toLowerCase(), first]]);
  const names = new Map<string, PlacedArea | undefined>();
  for (const other of also) read.set(other.sheet.toLowerCase(), other);
  const waiting = [first, ...also];
  const want = async (name: string): Promise<void> => {
    const stored = present.get(name.toLowerCase());
    if (stored === undefined || read.has(name.toLowerCase())) return;
    const snapshot = await takeSnapshot(host, stored);
    read.set(name.toLowerCase(), snapshot);
    waiting.push(snapshot);
  };
  for (let snapshot = waiting.pop(); snapshot; snapshot = waiting.pop()) {
    const mentioned: Mentioned = { sheets: new Set(), names: new Set() };
    for (const row of snapshot.cells)
      for (const { formula } of row) if (formula !== undefined) addMentioned(formula, mentioned);
    for (const sheet of mentioned.sheets) await want(sheet);
    for (const name of mentioned.names) {
      const own = snapshot.names.get(name.toLowerCase());
      const area = own ?? placeOf((await host.resolveName(name, snapshot.sheet)) ?? "", snapshot.sheet);
      if (!own) names.set(nameKey(snapshot.sheet, name), area);
      if (area) await want(area.sheet);
    }
  }
  return bookOfSheets([...read.values()], names);
}
