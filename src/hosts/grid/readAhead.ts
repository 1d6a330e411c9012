import { isComputing } from "./calculated.ts";
import type { OwnResults } from "./ownResults.ts";
import { workbookId, type GridRuntime, type GridWorkbook } from "./runtime.ts";
import type { SelfContained } from "./selfContained.ts";

interface Around {
  readonly grid: GridRuntime;
  readonly workbook: GridWorkbook;
  readonly selfContained: SelfContained;
  readonly ownResults: OwnResults;
}

/** One more formula is taken apart while so much of a pause is left, in milliseconds. */
const least = 3;

/**
 * Sheets that come with their values are first computed when somebody enters something there, and by the grid when all
 * is computed anew: taking thousands of formulas apart would be waited for then. It is done in the pauses of the page
 * after they have come. Only for sheets that use no names, so that what is kept depends on a formula's text alone.
 */
export class ReadAhead {
  readonly #around: Around;
  #steps: Iterator<unknown> | undefined;
  #asked: number | undefined;

  constructor(around: Around) {
    this.#around = around;
  }

  /** Begins again with the sheets there are now: the grid forgets formulas where sheets come. */
  begin(): void {
    if (!this.#around.grid.onScreen) return;
    this.#steps = this.#work();
    this.#asked ??= requestIdleCallback((pause) => this.#goOn(pause));
  }

  /** Does no more. */
  end(): void {
    if (this.#asked !== undefined) cancelIdleCallback(this.#asked);
    this.#asked = undefined;
    this.#steps = undefined;
  }

  #goOn(pause: IdleDeadline): void {
    this.#asked = undefined;
    // What the grid computes just now goes first.
    while (this.#steps && !isComputing(this.#around.grid) && pause.timeRemaining() > least)
      if (this.#steps.next().done) this.#steps = undefined;
    if (this.#steps) this.#asked = requestIdleCallback((next) => this.#goOn(next));
  }

  /** The sheet that is shown first. */
  *#work(): Generator {
    const { workbook, selfContained, ownResults } = this.#around;
    const shown = workbook.getActiveSheet().getSheetId();
    const all = workbook.getSheets().map((sheet) => sheet.getSheetId());
    const sheets = [shown, ...all.filter((id) => id !== shown)].filter((id) => selfContained.has(id));
    for (const id of sheets.slice(0, 1)) yield ownResults.prepare(id);
    for (const id of sheets) yield* this.#formulasOf(id);
  }

  *#formulasOf(sheetId: string): Generator {
    const { grid, workbook, selfContained } = this.#around;
    const { formula: engine, univer } = grid;
    const injector = univer.__getInjector();
    const words = injector.get(engine.Lexer);
    const parser = injector.get(engine.AstTreeBuilder);
    const current = injector.get(engine.IFormulaCurrentConfigService);
    const formulas = new Set<string>();
    workbook
      .getSheetBySheetId(sheetId)
      ?.getSheet()
      .getCellMatrix()
      .forValue((_row, _column, cell) => {
        if (cell?.f) formulas.add(cell.f);
      });
    for (const formula of formulas) {
      // Somebody may have typed a formula there since.
      if (!selfContained.has(sheetId)) return;
      yield engine.generateAstNode(workbookId, formula, words, parser, current);
    }
  }
}
