import { type Address, agrees } from "../../cells/index.ts";
import type { CellValue } from "../../hosts/index.ts";
import { unconfirmedIn } from "../marks/unconfirmed.ts";
import { cellChanges, type InputChange } from "./change.ts";
import type { SheetInput } from "./sheetInputs.ts";
import { State, type CheckCells, type CheckState, type Questioned } from "./state.ts";

export interface CheckOutcome extends CheckCells {
  readonly before: CheckState;
  readonly after: CheckState;
  /** The verdict turned. */
  readonly turned: boolean;
  /** The utilisation is another, to a relative 1e-9. */
  readonly moved: boolean;
}

/** A verdict or status of the sheet that turned, outside the summary. */
interface Turned {
  readonly at: Address;
  readonly of: string;
  readonly before: string;
  readonly after: string;
}

export interface WhatIf {
  readonly sheet: string;
  readonly changed: readonly {
    readonly input: SheetInput;
    readonly label: string;
    readonly at: Address;
    readonly before: CellValue;
    readonly after: CellValue;
  }[];
  /** In the order of the sheet. */
  readonly checks: readonly CheckOutcome[];
  readonly overall: { readonly before: string; readonly after: string };
  /** Values of the sheet that are assumed or proposed, without initials. */
  readonly unconfirmed: number;
  readonly governing: { readonly before: CheckOutcome | undefined; readonly after: CheckOutcome | undefined };
  readonly turned: readonly Turned[];
  readonly warnings: { readonly appeared: readonly string[]; readonly gone: readonly string[] };
  /** The overall verdicts of the linked sheets that take their values from it. */
  readonly linked: readonly { readonly sheet: string; readonly before: string; readonly after: string }[];
  /** What could not be computed, each reason once. */
  readonly cannot: readonly string[];
}

/** The check with the largest utilisation. */
function governs<C extends { readonly [K in S]: CheckState }, S extends "before" | "after">(
  checks: readonly C[],
  when: S,
): C | undefined {
  return checks.reduce<C | undefined>(
    (most, c) => ((c[when].utilisation ?? -Infinity) > (most?.[when].utilisation ?? -Infinity) ? c : most),
    undefined,
  );
}

/** Whether two utilisations are different numbers, or only one of them is one. */
function differs(a: CheckState, b: CheckState): boolean {
  if (a.utilisation === undefined || b.utilisation === undefined)
    return a.utilisation !== b.utilisation || a.said !== b.said;
  return !agrees(a.utilisation, b.utilisation);
}

/**
 * The checks of a sheet with some inputs changed, beside what they are now. The sheet itself is not touched. Throws
 * NotAllowed where an input may not
 * take its value.
 */
export function whatIf(of: Questioned, changes: readonly InputChange[]): WhatIf {
  const cells = cellChanges(of.sheet, changes);
  const [now, then] = [new State(of), new State(of, cells)];
  const checks = of.checks.map((check): CheckOutcome => {
    const [before, after] = [now.check(check), then.check(check)];
    return { ...check, before, after, turned: before.verdict !== after.verdict, moved: differs(before, after) };
  });
  const cannot = new Set<string>();
  const inSummary = new Set(of.checks.map(({ verdict: { row, column } }) => `${row},${column}`));
  const turned = of.verdicts.flatMap(({ at, of: label }): Turned[] => {
    const [before, after] = [now.text(at).trim(), then.text(at).trim()];
    const reason = then.at(at).cannot;
    if (reason !== undefined) cannot.add(reason);
    return before === after || inSummary.has(`${at.row},${at.column}`) ? [] : [{ at, of: label, before, after }];
  });
  for (const { utilisation, verdict } of of.checks)
    for (const at of [utilisation, verdict]) {
      const reason = then.at(at).cannot;
      if (reason !== undefined) cannot.add(reason);
    }
  const appeared: string[] = [];
  const gone: string[] = [];
  for (const { at, of: label } of of.warnings) {
    const [before, after] = [now.text(at).trim(), then.text(at).trim()];
    if (before === after) continue;
    if (after) appeared.push(`${label}: ${after}`);
    if (before) gone.push(`${label}: ${before}`);
  }
  return {
    sheet: of.sheet,
    changed: cells.map(({ input, from, value }) => ({
      input,
      label: from.label,
      at: from.at,
      before: from.value,
      after: value,
    })),
    checks,
    turned,
    warnings: { appeared, gone },
    cannot: [...cannot],
    linked: (of.linked ?? []).map((other) => ({
      sheet: other.sheet,
      before: new State(other).text(other.overall),
      after: new State(other, cells).text(other.overall),
    })),
    unconfirmed: unconfirmedIn(of.recognised),
    overall: { before: now.text(of.overall), after: then.text(of.overall) },
    governing: { before: governs(checks, "before"), after: governs(checks, "after") },
  };
}
