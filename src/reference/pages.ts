import { namespace } from "../../functions/index.ts";
import { referenceDocument } from "./document.ts";
import { byName, byTask } from "./frontPages.ts";
import { functionPage, type Library } from "./functionPage.ts";
import { namesPage, pageOf } from "./places.ts";

/** Every page of the reference by its file name: one a function, the front page by task, the list by name. */
export function referencePages(library: Library): ReadonlyMap<string, string> {
  return new Map([
    [pageOf(), referenceDocument("Kernbook reference", byTask(library.functions))],
    [namesPage, referenceDocument("Kernbook reference by name", byName(library.functions))],
    ...library.functions.map(
      (f) =>
        [
          pageOf(f.id),
          referenceDocument(`${namespace}.${f.id} – Kernbook reference`, functionPage(f, library)),
        ] as const,
    ),
  ]);
}
