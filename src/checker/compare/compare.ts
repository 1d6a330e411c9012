import { readBook } from "../book/readBook.ts";
import { valuesAgainstHost } from "../../cells/index.ts";
import { takeSnapshot } from "../book/takeSnapshot.ts";
import type { Host } from "../../hosts/index.ts";
import { recogniseSnapshot } from "../recognise/recognise.ts";
import { isKnownTemplate } from "../../templates/offices.ts";
import { headOf } from "../recognise/head.ts";
import type { Recognised, SaidAtHead } from "../recognise/recognised.ts";
import { effects, type Effect } from "./asTemplate.ts";
import { cellFindings } from "./cells.ts";
import { colourFindings } from "./colourRules.ts";
import { markFindings, uncomputedFindings, valueFindings } from "./computed.ts";
import { entryFindings, placesOfEntry } from "./entryRules.ts";
import { gathered, inOrder, type Finding, type Grade } from "./finding.ts";
import { linkFindings } from "./links.ts";
import { withLocked } from "./locked.ts";
import { protectionFindings } from "./protection.ts";
import { addedFindings, goneFindings } from "./rows.ts";
import { hiddenFindings, nameFindings, versionFindings } from "./sheetWide.ts";

/** A sheet beside what its template would build today from the sheet's own inputs. */
export interface Comparison {
  readonly recognised: Recognised;
  readonly sheet: string;
  /** The gravest first. */
  readonly findings: readonly Finding[];
  /** What differing formulas come to as a whole; undefined where none differs. */
  readonly effect?: Effect;
  readonly counts: Readonly<Record<Grade, number>>;
  /** No difference but notes. */
  readonly clean: boolean;
  /**
   * How many cells of the plan were compared, how many of them hold formulas, and how many formulas of the sheet were
   * computed apart from the host.
   */
  readonly compared: { readonly cells: number; readonly formulas: number; readonly computed: number };
}

/**
 * What a sheet says of its template where none of that id is known here, as of an office's whose file was not loaded;
 * undefined for any other sheet.
 */
export async function missingTemplate(host: Host, sheet: string): Promise<SaidAtHead | undefined> {
  const snapshot = await takeSnapshot(host, sheet);
  const head = headOf(snapshot, () => false);
  return head && head.hash !== "" && !isKnownTemplate(head.templateId) ? head : undefined;
}

/**
 * Recalculates the workbook, reads the sheet and compares it, cell by cell, with what its template builds today.
 * Undefined where no template of this
 * installation built it, and for a copy.
 */
export async function compare(host: Host, sheet: string): Promise<Comparison | undefined> {
  await host.recalculate();
  const snapshot = await takeSnapshot(host, sheet);
  const recognised = await recogniseSnapshot(snapshot);
  if (!recognised) return undefined;
  const whole = { row: 0, column: 0, rows: snapshot.rows, columns: snapshot.columns };
  const looks = await host.looks(sheet, whole);
  const rules = await host.rules(sheet, whole, placesOfEntry(recognised));
  const computed = valuesAgainstHost(await readBook(host, snapshot));
  const found = inOrder(
    gathered([
      ...versionFindings(recognised),
      ...goneFindings(recognised),
      ...addedFindings(recognised),
      ...hiddenFindings(recognised, looks),
      ...protectionFindings(recognised, rules.locked),
      ...entryFindings(recognised, rules.entries),
      ...colourFindings(recognised, rules.colours),
      ...cellFindings(recognised, looks),
      ...(await linkFindings(recognised, host)),
      ...valueFindings(recognised, computed),
      ...uncomputedFindings(recognised, computed),
      ...nameFindings(recognised),
      ...markFindings(recognised),
    ]),
  );
  const comesTo = effects(recognised, found);
  const ungraded = comesTo?.findings ?? found;
  const findings = recognised.template.locked ? inOrder(withLocked(recognised, ungraded)) : ungraded;
  const count = (grade: Grade): number => findings.filter((f) => f.grade === grade).length;
  const counts = { serious: count("serious"), look: count("look"), note: count("note") };
  const { cells } = recognised.plan;
  return {
    recognised,
    sheet,
    findings,
    ...(comesTo && { effect: comesTo.effect }),
    counts,
    clean: counts.serious === 0 && counts.look === 0,
    compared: {
      cells: cells.length,
      formulas: cells.filter(({ formula }) => formula !== undefined).length,
      computed: computed.compared,
    },
  };
}
