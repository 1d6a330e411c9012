/** The sheet of that name; throws where there is none. */
export async function sheetNamed(context: Excel.RequestContext, name: string): Promise<Excel.Worksheet> {
  const sheet = context.workbook.worksheets.getItemOrNullObject(name);
  sheet.load("name");
  await context.sync();
  // The program also finds a sheet by its id.
  if (sheet.isNullObject || sheet.name.toLowerCase() !== name.toLowerCase())
    throw new Error(`The workbook has no sheet named “${name}”.`);
  return sheet;
}
