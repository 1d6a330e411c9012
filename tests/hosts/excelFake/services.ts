import type { Area } from "../../../src/cells/index.ts";
import type { FakeSheet, FakeWorkbook } from "./state.ts";
import { OfficeError } from "./strict.ts";

/** What a formula's cell shows. */
export interface Computed {
  readonly value: number | string | boolean;
  readonly text: string;
  readonly error: boolean;
}

/** Computes all formulas of a workbook: by sheet id and cell key. Cells that a formula fills beside its own are there too. */
export type Calculator = (workbook: FakeWorkbook) => Promise<ReadonlyMap<string, ReadonlyMap<string, Computed>>>;

export type FakeEvent = "selection" | "activation" | "entry" | "calculation";

/** What the objects of the fake share. */
export interface Services {
  readonly workbook: FakeWorkbook;
  /** What the formulas show now; refused while a request has calculation suspended. */
  readonly computed: () => Promise<ReadonlyMap<string, ReadonlyMap<string, Computed>>>;
  /** Is this version of ExcelApi there? */
  readonly has: (version: string) => boolean;
  readonly changed: (what: FakeEvent, sheetId: string) => void;
  readonly handlers: Readonly<Record<FakeEvent, Set<(args: { readonly worksheetId: string }) => Promise<void>>>>;
  suspended: boolean;
}

export interface SheetTarget {
  readonly services: Services;
  readonly sheet: FakeSheet;
}

/** One or several areas of a sheet. */
export interface RangeTarget extends SheetTarget {
  readonly areas: readonly Area[];
}

/** Refuses what protection forbids. `locked`: are the cells touched locked, or is more than cells touched? */
export function guard({ sheet }: SheetTarget, what: string, locked = true): void {
  if (sheet.protection && locked)
    throw new OfficeError("AccessDenied", `“${sheet.name}” is protected: ${what} is refused`);
}
