import { type GridRuntime, type GridSheet, type GridWorkbook } from "./runtime.ts";

/** On a screen somebody waits; a command on a busy machine may take longer, and nobody is helped by its giving up. */
const calculationLimit = ({ onScreen }: GridRuntime): number => (onScreen ? 120_000 : 900_000);

const begins = "formula.mutation.set-trigger-formula-calculation-start";
const entering = "sheet.mutation.set-range-values";
/** The grid begins to compute 0.1 s after the last of several changes; in milliseconds, with room to spare. */
const begunBy = 150;

/**
 * Knows whether the grid computes or is about to. Asked to say when it has computed, it waits half a second for a
 * calculation to begin, also where none will.
 */
class Computing {
  /** What the grid does at its beginning is not seen from here. */
  #unseen = true;
  #waiting: ReturnType<typeof setTimeout> | undefined;
  #begun = 0;
  #ended = 0;

  constructor(grid: GridRuntime) {
    const { api, core, formula, univer } = grid;
    const injector = univer.__getInjector();
    const dirty = injector.get(formula.IActiveDirtyManagerService);
    injector.get(core.ICommandService).onCommandExecuted(({ id }, options) => {
      if (id === begins) {
        const mine = ++this.#begun;
        // One that is begun again is waited for by the later one.
        api
          .getFormula()
          .onCalculationResultApplied(calculationLimit(grid))
          .then(
            () => (this.#ended = Math.max(this.#ended, mine)),
            // Not told in time: from here on the grid is asked again.
            () => (this.#unseen = true),
          );
        return;
      }
      if (!dirty.get(id) || (id === entering && options?.onlyLocal === true)) return;
      clearTimeout(this.#waiting);
      this.#waiting = setTimeout(() => (this.#waiting = undefined), begunBy);
    });
  }

  get isNow(): boolean {
    return this.#unseen || this.#waiting !== undefined || this.#ended < this.#begun;
  }

  /** The grid was waited for once, and stood still. */
  seen(): void {
    this.#unseen = false;
  }
}

const watched = new WeakMap<GridRuntime, Computing>();

/** From now on it is known whether the grid computes. */
export function watchComputing(grid: GridRuntime): void {
  watched.set(grid, new Computing(grid));
}

/** Whether the grid computes or is about to; unknown counts as that. */
export function isComputing(grid: GridRuntime): boolean {
  return watched.get(grid)?.isNow ?? true;
}

/** Waits until everything that follows from the last edit is computed and on the sheet. */
export async function calculated(grid: GridRuntime): Promise<void> {
  if (!isComputing(grid)) return;
  await grid.api.getFormula().onCalculationResultApplied(calculationLimit(grid));
  watched.get(grid)?.seen();
}

/**
 * Resolves when the grid has applied a result, from now on. On a busy machine a calculation may start late, and waiting
 * for “all done” end before it.
 */
export function nextResult(grid: GridRuntime): { readonly applied: Promise<void>; readonly stop: () => void } {
  let stop = (): void => undefined;
  const applied = new Promise<void>((resolve, reject) => {
    const most = calculationLimit(grid);
    const limit = setTimeout(() => reject(new Error(`the grid has not computed within ${most / 1000} s`)), most);
    const listening = grid.api.getFormula().calculationResultApplied(() => {
      stop();
      resolve();
    });
    stop = () => {
      clearTimeout(limit);
      listening.dispose();
    };
  });
  return { applied, stop };
}

/** Computes the whole workbook anew. */
export async function recalculated(grid: GridRuntime, workbook: GridWorkbook): Promise<void> {
  // Where nothing is to be computed, the grid tells of no result.
  if (!workbook.getSheets().some(hasFormula)) return;
  const result = nextResult(grid);
  try {
    grid.api.getFormula().executeCalculation();
    await result.applied;
  } finally {
    result.stop();
  }
}

function hasFormula(sheet: GridSheet): boolean {
  let found = false;
  sheet
    .getSheet()
    .getCellMatrix()
    .forValue((_row, _column, cell) => {
      found = Boolean(cell?.f ?? cell?.si);
      return !found;
    });
  return found;
}
