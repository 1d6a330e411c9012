import type { Snapshot } from "../../cells/index.ts";
import type { Host } from "../../hosts/index.ts";

/** Reads a whole sheet. */
export async function takeSnapshot(host: Host, sheet: string): Promise<Snapshot> {
  const used = await host.used(sheet);
  const [cells, names] = await Promise.all([used.rows > 0 ? host.read(sheet, used) : [], host.namesOn(sheet)]);
  return {
    sheet,
    rows: used.rows,
    columns: used.columns,
    cells,
    names: new Map(names.map(({ name, area }) => [name.toLowerCase(), area])),
  };
}
