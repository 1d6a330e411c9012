import { logoToTake, type Host } from "../../hosts/index.ts";
import { takeSnapshot } from "../book/takeSnapshot.ts";
import { isCopy } from "../recognise/head.ts";
import { recogniseSnapshot } from "../recognise/recognise.ts";
import type { EquationReader } from "./equation.ts";
import { portableCopies, type PortableCopy, type PortableFacts } from "./portablePlans.ts";

/** The computing copy of a sheet as it is now; throws where the sheet is empty or a copy already. */
export async function readPortable(
  host: Host,
  sheet: string,
  facts: PortableFacts,
  reader: EquationReader,
): Promise<PortableCopy & { readonly template: string | undefined }> {
  const snapshot = await takeSnapshot(host, sheet);
  if (snapshot.rows === 0) throw new Error(`the sheet “${sheet}” is empty`);
  if (isCopy(snapshot)) throw new Error(`“${sheet}” is a copy already; select a cell of the sheet it was made of`);
  const recognised = await recogniseSnapshot(snapshot);
  const looks = await host.looks(sheet, { row: 0, column: 0, rows: snapshot.rows, columns: snapshot.columns });
  const { logo, without } = await logoToTake(host, sheet);
  const [copy] = portableCopies([{ snapshot, looks, recognised, without, ...(logo && { logo }) }], facts, reader);
  return { ...copy!, template: recognised?.template.title };
}
