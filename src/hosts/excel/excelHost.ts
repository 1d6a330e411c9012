import type { Address, Area } from "../../cells/index.ts";
import type { Logo, Plan } from "../../sheet/index.ts";
import { Turns } from "../host/turns.ts";
import type {
  ApplyOptions,
  CellContent,
  Host,
  InsertedCell,
  Looks,
  Place,
  Selection,
  SheetName,
  SheetRules,
} from "../host/host.ts";
import { checkSource } from "../host/source.ts";
import { dependantsOf } from "./dependants.ts";
import { enterCells, type EnteredCell } from "./enter.ts";
import { subscribe } from "./events.ts";
import { looksOf } from "./hiding.ts";
import type { LostCell } from "../host/lostFunctions.ts";
import { lostCells, repairCells, type Repaired } from "./lost.ts";
import { OwnEvaluations } from "./ownEvaluations.ts";
import { sweepLeftOvers, type Swept } from "./passingSheets.ts";
import { readCells } from "./read.ts";
import { recalculateAll } from "./recalculate.ts";
import { explained, type ExcelDependencies } from "./runs.ts";
import { selectedCells } from "./selection.ts";
import { namesOfSheet } from "./sheetNames.ts";
import { sheetNamed } from "./sheets.ts";
import { usedArea } from "./usedArea.ts";

/** What no panel needs to open loads at its first use. */
const later = {
  apply: () => import("./apply.ts"),
  evaluate: () => import("./evaluate.ts"),
  insert: () => import("./insert.ts"),
  rules: () => import("./readRules.ts"),
  logo: () => import("./logo.ts"),
};

/** The spreadsheet program as a host. */
export class ExcelHost implements Host {
  readonly name = "Excel";
  // What an add-in writes is on the undo list of some versions only.
  readonly undoesInsertion = false;
  readonly showsLogos = true;
  readonly #dependencies: ExcelDependencies;
  readonly #turns = new Turns();
  readonly #own = new OwnEvaluations();

  constructor(dependencies: ExcelDependencies) {
    this.#dependencies = dependencies;
  }

  async apply(plan: Plan, options: ApplyOptions): Promise<{ readonly sheet: string }> {
    await checkSource(plan, this);
    return this.#inTurn(async () => {
      const { applyPlan } = await later.apply();
      await applyPlan(this.#dependencies, plan, options);
      return { sheet: options.sheetName };
    });
  }

  /** Removes sheets that an interrupted build or evaluation left in the workbook. */
  sweep(now?: () => number): Promise<Swept> {
    return this.#inTurn(() => sweepLeftOvers(this.#dependencies, now));
  }

  /** Cells whose formulas lost our functions while the program did not know them. */
  lostCells(): Promise<readonly LostCell[]> {
    return this.#run(lostCells);
  }

  /** Enters such formulas anew, and says what has become of their values. */
  repair(cells: readonly LostCell[]): Promise<Repaired> {
    return this.#inTurn(() => this.#dependencies.run((context) => repairCells(context, cells, this.#dependencies)));
  }

  sheetNames(): Promise<readonly string[]> {
    return this.#run(async (context) => {
      const { worksheets } = context.workbook;
      worksheets.load("items/name");
      await context.sync();
      return worksheets.items.map(({ name }) => name);
    });
  }

  read(sheet: string, area: Area): Promise<readonly (readonly CellContent[])[]> {
    return this.#run(async (context) => readCells(await sheetNamed(context, sheet), area));
  }

  used(sheet: string): Promise<Area> {
    return this.#run(async (context) => usedArea(await sheetNamed(context, sheet)));
  }

  namesOn(sheet: string): Promise<readonly SheetName[]> {
    return this.#run(async (context) => namesOfSheet(await sheetNamed(context, sheet)));
  }

  looks(sheet: string, area: Area): Promise<Looks> {
    return this.#run(async (context) => looksOf(await sheetNamed(context, sheet), area));
  }

  async rules(sheet: string, area: Area, places: readonly Address[]): Promise<SheetRules> {
    const { rulesOf } = await later.rules();
    return this.#run(async (context) => rulesOf(await sheetNamed(context, sheet), area, places));
  }

  recalculate(): Promise<void> {
    return this.#inTurn(() => this.#dependencies.run((context) => recalculateAll(context, this.#dependencies)));
  }

  dependants(place: Place): Promise<readonly Place[] | undefined> {
    return this.#run((context) => dependantsOf(context, this.#dependencies, place));
  }

  enterAll(sheet: string, cells: readonly EnteredCell[]): Promise<void> {
    return this.#inTurn(() =>
      this.#dependencies.run((context) => enterCells(context, sheet, cells, this.#dependencies)),
    );
  }

  insert(sheet: string, cells: readonly InsertedCell[]): Promise<void> {
    return this.#inTurn(async () => {
      const { insertCells } = await later.insert();
      await this.#dependencies.run((context) => insertCells(context, sheet, cells));
    });
  }

  async logo(sheet: string): Promise<Logo | undefined> {
    const { readLogo } = await later.logo();
    return this.#run(async (context) => readLogo(await sheetNamed(context, sheet)));
  }

  selection(): Promise<Selection | undefined> {
    return this.#run(selectedCells);
  }

  select({ sheet: name, row, column }: Place): Promise<void> {
    return this.#run(async (context) => {
      const sheet = await sheetNamed(context, name);
      sheet.activate();
      sheet.getRangeByIndexes(row, column, 1, 1).select();
      await context.sync();
    });
  }

  resolveName(name: string, sheetName: string): Promise<string | undefined> {
    return this.#run(async (context) => {
      const sheet = await sheetNamed(context, sheetName);
      const found = [sheet.names.getItemOrNullObject(name), context.workbook.names.getItemOrNullObject(name)];
      for (const item of found) item.load("formula");
      await context.sync();
      const item = found.find(({ isNullObject }) => !isNullObject);
      return item && String(item.formula).replace(/^=/, "");
    });
  }

  evaluate(formula: string, sheet: string): Promise<readonly (readonly CellContent[])[]> {
    return this.#inTurn(async () => {
      const { evaluateOn } = await later.evaluate();
      return evaluateOn(this.#dependencies, this.#own, formula, sheet);
    });
  }

  onSelection(listener: (selection: Selection) => void): () => void {
    const tell = async (): Promise<void> => {
      try {
        const selection = await this.selection();
        if (selection) listener(selection);
      } catch (error) {
        this.#dependencies.report(error);
      }
    };
    return subscribe(this.#dependencies, ({ workbook: { worksheets } }) => [
      worksheets.onSelectionChanged.add(tell),
      worksheets.onActivated.add(tell),
    ]);
  }

  onCalculated(listener: () => void): () => void {
    const calculated = async ({ worksheetId }: { readonly worksheetId: string }): Promise<void> => {
      await Promise.resolve();
      try {
        if (this.#own.matters(worksheetId)) listener();
      } catch (error) {
        this.#dependencies.report(error);
      }
    };
    const entered = async ({ worksheetId }: { readonly worksheetId: string }): Promise<void> => {
      await Promise.resolve();
      this.#own.entered(worksheetId);
    };
    return subscribe(this.#dependencies, ({ workbook: { worksheets } }) => [
      worksheets.onChanged.add(entered),
      worksheets.onCalculated.add(calculated),
    ]);
  }

  async #run<T>(batch: (context: Excel.RequestContext) => Promise<T>): Promise<T> {
    try {
      return await this.#dependencies.run(batch);
    } catch (error) {
      throw explained(error);
    }
  }

  /** Works that change the workbook follow one another. */
  #inTurn<T>(work: () => Promise<T>): Promise<T> {
    return this.#turns.take(async () => {
      try {
        return await work();
      } catch (error) {
        throw explained(error);
      }
    });
  }
}
