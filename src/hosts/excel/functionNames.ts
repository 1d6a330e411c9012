import type { Plan } from "../../sheet/index.ts";

/** A name of the workbook as it stood before a plan brought its function; undefined where there was none. */
export interface NameBefore {
  readonly name: string;
  readonly formula: string | undefined;
}

/**
 * Functions of the workbook's own that a plan brings along. A name that holds another formula gets the plan's, for its
 * sheet has to compute with it. `before` takes what `putBackFunctions` needs, ahead of every change.
 */
export async function addFunctions(
  sheet: Excel.Worksheet,
  { functions = [] }: Plan,
  before: NameBefore[],
): Promise<void> {
  if (functions.length === 0) return;
  const { context } = sheet;
  const { names } = context.workbook;
  const known = functions.map(({ name }) => {
    const item = names.getItemOrNullObject(name);
    item.load("formula");
    return item;
  });
  await context.sync();
  functions.forEach(({ name, formula }, i) => {
    const item = known[i]!;
    const wanted = `=${formula}`;
    if (item.isNullObject) {
      before.push({ name, formula: undefined });
      names.add(name, wanted);
    } else if (item.formula !== wanted) {
      before.push({ name, formula: item.formula as string });
      item.formula = wanted;
    }
  });
  await context.sync();
}

/** Takes the functions away again that a build added before it failed, and puts back what stood under their names. */
export async function putBackFunctions(context: Excel.RequestContext, before: readonly NameBefore[]): Promise<void> {
  if (before.length === 0) return;
  const items = before.map(({ name }) => {
    const item = context.workbook.names.getItemOrNullObject(name);
    item.load("formula");
    return item;
  });
  await context.sync();
  before.forEach(({ formula }, i) => {
    const item = items[i]!;
    if (item.isNullObject) return;
    if (formula === undefined) item.delete();
    else item.formula = formula;
  });
  await context.sync();
}
