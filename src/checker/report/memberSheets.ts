import { sheetsIn } from "../../cells/index.ts";
import type { Host } from "../../hosts/index.ts";
import { linkedTo } from "../link/link.ts";
import { recognise } from "../recognise/recognise.ts";
import type { Recognised } from "../recognise/recognised.ts";

/** A member of which no report can be made: the message says why and what to do. */
export class NotReportable extends Error {
  override readonly name = "NotReportable";
}

/** The sheet that a linked sheet takes its values from; undefined where the link is broken. */
async function sourceOf(host: Host, { snapshot, template }: Recognised): Promise<Recognised | undefined> {
  const wanted = template.source?.template.id;
  const referred = new Set(
    snapshot.cells.flatMap((row) => row.flatMap(({ formula }) => (formula === undefined ? [] : sheetsIn(formula)))),
  );
  const there = new Set(await host.sheetNames());
  for (const name of referred) {
    const found = there.has(name) ? await recognise(host, name) : undefined;
    if (found?.template.id === wanted) return found;
  }
  return undefined;
}

/**
 * All sheets of the member that a sheet belongs to: the one that stands by itself first, then those linked to it.
 * @throws NotReportable where no template built the sheet, or what it is linked to is not in the workbook
 */
export async function sheetsOfMember(host: Host, sheet: string): Promise<readonly [Recognised, ...Recognised[]]> {
  const own = await recognise(host, sheet);
  if (!own) throw new NotReportable(`“${sheet}” is no sheet that a template built; select a cell of one that is.`);
  const source = own.template.source ? await sourceOf(host, own) : own;
  if (!source)
    throw new NotReportable(
      `“${sheet}” is linked to a sheet that is not in this workbook; link it again under Build, then make the report.`,
    );
  return [source, ...(await linkedTo(host, source))];
}
