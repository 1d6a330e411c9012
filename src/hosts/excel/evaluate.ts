import { namesIn, qualified, withPrefix } from "../../cells/index.ts";
import type { CellContent } from "../host/host.ts";
import { unreadable } from "../host/unreadable.ts";
import type { OwnEvaluations } from "./ownEvaluations.ts";
import { passingName } from "./passingSheets.ts";
import { computedValues } from "./probe.ts";
import { contentProperties, contentsOf } from "./read.ts";
import { optionalSets } from "./requirements.ts";
import { codeOf, twice, type ExcelDependencies } from "./runs.ts";
import { sheetNamed } from "./sheets.ts";

/** The names of the sheet's own among these, in small letters. */
async function ownNames(sheet: Excel.Worksheet, names: readonly string[]): Promise<ReadonlySet<string>> {
  const items = names.map((name) => ({ name, item: sheet.names.getItemOrNullObject(name) }));
  for (const { item } of items) item.load("name");
  await sheet.context.sync();
  return new Set(items.filter(({ item }) => !item.isNullObject).map(({ name }) => name.toLowerCase()));
}

async function computedOn(
  scratch: Excel.Worksheet,
  formula: string,
  dependencies: ExcelDependencies,
): Promise<readonly (readonly CellContent[])[] | undefined> {
  const { context } = scratch;
  const cell = scratch.getRangeByIndexes(0, 0, 1, 1);
  cell.formulas = [[formula]];
  try {
    await context.sync();
  } catch (error) {
    if (codeOf(error) === "InvalidArgument") return undefined;
    throw error;
  }
  await computedValues(cell, dependencies, formula);
  const { set, version } = optionalSets.spills;
  const spill = dependencies.supports(set, version) ? cell.getSpillingToRangeOrNullObject() : undefined;
  spill?.load("address");
  await context.sync();
  const range = spill && !spill.isNullObject ? spill : cell;
  range.load(contentProperties);
  await context.sync();
  return contentsOf(range);
}

/**
 * Evaluates an expression on a sheet of its own, which stays hidden and goes again: no cell of the user's is touched.
 * What an expression says about its own place (`ROW()` without a cell, `@`) is not that of any cell of the user's.
 */
export async function evaluateOn(
  dependencies: ExcelDependencies,
  own: OwnEvaluations,
  expression: string,
  sheetName: string,
): Promise<readonly (readonly CellContent[])[]> {
  const { run, report } = dependencies;
  const formula = withPrefix(expression);
  const scratchName = passingName();
  const remove = (): Promise<void> =>
    twice(
      () =>
        run(async (context) => {
          const scratch = context.workbook.worksheets.getItemOrNullObject(scratchName);
          scratch.load("name");
          await context.sync();
          if (scratch.isNullObject) return;
          // A sheet hidden for good cannot be deleted.
          scratch.visibility = "Hidden";
          scratch.delete();
          await context.sync();
        }),
      report,
    );
  let contents: readonly (readonly CellContent[])[] | undefined;
  try {
    contents = await run(async (context) => {
      const sheet = await sheetNamed(context, sheetName);
      const names = await ownNames(sheet, namesIn(formula));
      const scratch = context.workbook.worksheets.add(scratchName);
      scratch.visibility = "VeryHidden";
      scratch.load("id");
      await context.sync();
      own.began(scratch.id);
      return await computedOn(scratch, qualified(formula, sheet.name, names), dependencies);
    });
  } catch (error) {
    try {
      await remove();
    } catch (second) {
      throw new AggregateError(
        [error, second],
        `${formula} could not be evaluated (${(error as Error).message}), and the hidden sheet “${scratchName}” ` +
          `used for it could not be removed (${(second as Error).message}).`,
        { cause: error },
      );
    }
    throw error;
  } finally {
    own.ended();
  }
  await remove();
  own.ended();
  if (!contents) return [[{ value: null, formula, text: unreadable.code, error: unreadable }]];
  // As it was asked, not as it stood on the hidden sheet.
  return contents.map((row) => row.map((cell) => ({ ...cell, formula })));
}
