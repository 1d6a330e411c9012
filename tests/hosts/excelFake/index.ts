import type { ExcelRun } from "../../../src/hosts/index.ts";
import type { Calculator, Computed, FakeEvent, Services } from "./services.ts";
import { newWorkbook, snapshot, type FakeWorkbook } from "./state.ts";
import { OfficeError, type FakeContext } from "./strict.ts";
import { workbookObject } from "./workbook.ts";

export { cellAt, changeCell, snapshot, type FakeCell, type FakeSheet, type FakeWorkbook } from "./state.ts";
export { Misuse, OfficeError } from "./strict.ts";
export type { Calculator, Computed } from "./services.ts";

/** A fault to come: at the n-th operation, or at the n-th request before it is sent or when its answer should come. */
export interface Fault {
  readonly at: number;
  readonly kind: "operation" | "request" | "answer";
  /** From then on all fails. */
  readonly stays?: boolean;
  readonly code?: string;
}

export interface FakeOptions {
  readonly calculator: Calculator;
  /** Highest version of ExcelApi. */
  readonly api?: string;
}

type Batch = (context: Excel.RequestContext) => Promise<unknown>;

/** A strict stand-in for the spreadsheet program: it refuses what the program refuses, and what it only lets pass by luck. */
export class FakeExcel {
  workbook: FakeWorkbook = newWorkbook();
  fault: Fault | undefined;
  operations = 0;
  requests = 0;
  /** Called with each operation as it is carried out. */
  watch: (label: string) => void = () => undefined;
  cellEdit = false;
  /** So many looks at values find the functions not yet registered; then so many find them still computing. */
  unregisteredLooks = 0;
  busyLooks = 0;
  readonly handlers: Services["handlers"] = {
    selection: new Set(),
    activation: new Set(),
    entry: new Set(),
    calculation: new Set(),
  };
  /** Of all requests: most operations, and most characters of what was set. */
  largest = { operations: 0, characters: 0 };
  readonly #options: FakeOptions;
  readonly #services: Services;

  constructor(options: FakeOptions) {
    this.#options = options;
    // eslint-disable-next-line @typescript-eslint/no-this-alias -- the services always see the workbook as it is
    const fake = this;
    this.#services = {
      get workbook() {
        return fake.workbook;
      },
      computed: () => this.#computed(),
      has: (version) => this.supports("ExcelApi", version),
      changed: (what, sheetId) => this.#changed(what, sheetId),
      handlers: this.handlers,
      suspended: false,
    };
  }

  /**
   * The workbook meets the program while it does not know the functions: their names get its own mark, in the formulas of the cells chosen,
   * and keep it when the functions are there.
   */
  loseFunctions(loses: (sheet: string, key: string) => boolean = () => true, before = ""): void {
    for (const sheet of this.workbook.sheets)
      for (const [key, cell] of sheet.cells)
        if (cell.formula !== undefined && loses(sheet.name, key))
          cell.formula = cell.formula.replace(/KERN\.(\w+)/g, `${before}_xldudf_KERN_$1`);
  }

  snapshot(): ReturnType<typeof snapshot> {
    return snapshot(this.workbook);
  }

  readonly supports = (set: string, version: string): boolean => {
    const number = (text: string): number => Number(text.split(".")[1]);
    return set !== "ExcelApi" || number(version) <= number(this.#options.api ?? "1.17");
  };

  readonly run = (async (first: Batch | object, second?: Batch): Promise<unknown> => {
    const batch = typeof first === "function" ? (first as Batch) : second!;
    const context = typeof first === "function" ? this.#context() : (first as { readonly sync: () => Promise<void> });
    const result = await batch(context as unknown as Excel.RequestContext);
    await context.sync();
    return result;
  }) as ExcelRun;

  #context(): { readonly workbook: object; readonly sync: () => Promise<void> } {
    let queue: { readonly label: string; readonly work: () => unknown; readonly size: number }[] = [];
    const sync = async (): Promise<void> => {
      const now = queue;
      queue = [];
      if (now.length === 0) return;
      if (this.cellEdit) throw new OfficeError("InvalidOperationInCellEditMode", "Excel is in cell-editing mode.");
      this.requests++;
      this.largest = {
        operations: Math.max(this.largest.operations, now.length),
        characters: Math.max(
          this.largest.characters,
          now.reduce((sum, { size }) => sum + size, 0),
        ),
      };
      this.#failAt("request", this.requests);
      try {
        for (const { label, work } of now) {
          this.operations++;
          this.#failAt("operation", this.operations);
          this.watch(label);
          await work();
        }
      } finally {
        this.#services.suspended = false;
      }
      this.#failAt("answer", this.requests);
    };
    const face = { sync } as { workbook: object; sync: () => Promise<void> };
    const context: FakeContext = { face, enqueue: (label, work, size = 0) => void queue.push({ label, work, size }) };
    face.workbook = workbookObject(context, this.#services);
    return face;
  }

  #failAt(kind: Fault["kind"], count: number): void {
    const { fault } = this;
    if (fault && fault.kind === kind && (fault.stays ? count >= fault.at : count === fault.at))
      throw new OfficeError(fault.code ?? "GeneralException", `injected fault at ${kind} ${count}`);
  }

  /** As in the program, events come after the request; a calculation reaches every sheet with a volatile cell. */
  #changed(what: FakeEvent, sheetId: string): void {
    const volatile =
      what === "calculation"
        ? this.workbook.sheets
            .filter(({ cells }) => [...cells.values()].some(({ formula }) => formula?.includes("KERN.VERSION")))
            .map(({ id }) => id)
        : [];
    for (const worksheetId of new Set([sheetId, ...volatile]))
      for (const handler of this.handlers[what]) setTimeout(() => void handler({ worksheetId }), 0);
  }

  async #computed(): Promise<ReadonlyMap<string, ReadonlyMap<string, Computed>>> {
    if (this.#services.suspended)
      throw new OfficeError("GeneralException", "values were asked for while calculation is suspended");
    const all = await this.#options.calculator(this.workbook);
    const passing = this.unregisteredLooks > 0 ? "#NAME?" : this.busyLooks > 0 ? "#BUSY!" : undefined;
    if (this.unregisteredLooks > 0) this.unregisteredLooks--;
    else if (this.busyLooks > 0) this.busyLooks--;
    if (passing === undefined) return all;
    const ours = (id: string, key: string): boolean =>
      /KERN\./i.test(this.workbook.sheets.find((sheet) => sheet.id === id)?.cells.get(key)?.formula ?? "");
    return new Map(
      [...all].map(([id, cells]) => [
        id,
        new Map(
          [...cells].map(([key, cell]) => [key, ours(id, key) ? { value: passing, text: passing, error: true } : cell]),
        ),
      ]),
    );
  }
}
