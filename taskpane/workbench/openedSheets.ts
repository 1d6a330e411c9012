import { builtOn, rememberBuilt } from "../built.ts";
import type { GridHost } from "../../src/hosts/index.ts";
import type { recognise } from "../../src/checker/index.ts";

type Book = Pick<GridHost, "selection" | "sheetNames" | "namesOn">;
type Recognised = NonNullable<Awaited<ReturnType<typeof recognise>>>;
/** What template built a sheet, as far as its plan says where its cells are now. */
type Recognise = (sheet: string) => Promise<Pick<Recognised, "plan" | "rowNow" | "columnNow"> | undefined>;

/**
 * Gives what remembers the sheets of the open workbook that a template built: they show their result again if their cells
 * are where they were planned; that of the selected sheet is the one shown. A run that another follows ends: the workbook
 * may be another by then.
 */
export function openedSheets(host: Book, recogniseSheet: Recognise): () => Promise<void> {
  let turn = 0;
  return async () => {
    const mine = (turn += 1);
    const isLast = (): boolean => mine === turn;
    const selected = (await host.selection())?.sheet;
    const names = [...(await host.sheetNames())].sort((a, b) => Number(a === selected) - Number(b === selected));
    for (const sheet of names) {
      if (!isLast()) return;
      if (builtOn(sheet) || (await host.namesOn(sheet)).length === 0) continue;
      const found = await recogniseSheet(sheet);
      if (!isLast()) return;
      const { plan, rowNow, columnNow } = found ?? {};
      if (!plan || !rowNow || !columnNow || builtOn(sheet)) continue;
      if (plan.cells.every(({ row, column }) => rowNow(row) === row && columnNow(column) === column))
        rememberBuilt(plan, sheet);
    }
  };
}
