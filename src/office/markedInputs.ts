import { saidOf, type Recognised } from "../checker/index.ts";
import { officeWord } from "../sheet/index.ts";

/** The inputs that a sheet in a workbook took from the office, whatever was typed over them since. */
export function markedInputs(recognised: Recognised): ReadonlySet<string> {
  return new Set(saidOf(recognised).flatMap(({ word, cell }) => (word === officeWord ? [cell.id] : [])));
}
