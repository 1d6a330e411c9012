import type { Plan } from "../../sheet/index.ts";

/** Functions of the workbook's own that a plan brings along; those it has already, from an earlier copy, stay. */
export async function addFunctions(sheet: Excel.Worksheet, { functions = [] }: Plan): Promise<void> {
  if (functions.length === 0) return;
  const { context } = sheet;
  const { names } = context.workbook;
  const known = functions.map(({ name }) => names.getItemOrNullObject(name));
  await context.sync();
  functions.forEach(({ name, formula }, i) => {
    if (known[i]!.isNullObject) names.add(name, `=${formula}`);
  });
  await context.sync();
}
