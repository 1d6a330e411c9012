import { ourFunction, piecesOf, type Snapshot } from "../../cells/index.ts";
import { officeLabel, templateLabel } from "../../sheet/index.ts";
import type { SaidAtHead } from "./recognised.ts";

/** `=KERN.VERSION()` and nothing else. */
function asksVersion(formula: string): boolean {
  // Most formulas need not be read for it.
  if (!formula.toUpperCase().includes("VERSION")) return false;
  const [name = "", ...rest] = piecesOf(formula).flatMap(({ kind, text }) =>
    kind === "prefix" || kind === "blank" ? [] : [text],
  );
  return ourFunction(name) === "VERSION" && rest.join("") === "()";
}

/** How the title of a copy begins that is for reading only. */
export const readingCopy = "HAND-OUT COPY of";

/** How the title of a copy begins that computes without the add-in. */
export const computingCopy = "COMPUTING COPY of";

/** Does the sheet say openly that it is a copy? Rows may have been inserted above its title. */
export function isCopy(snapshot: Snapshot): boolean {
  const says = (value: unknown): boolean =>
    typeof value === "string" && [readingCopy, computingCopy].some((beginning) => value.startsWith(`${beginning} “`));
  return snapshot.cells.some((row) => row.some(({ value }) => says(value)));
}

/**
 * What a sheet says of the template it comes from; undefined where it says nothing of the kind, and for a copy, which
 * keeps the text of its original and must not pass for it. Found by how it is written, wherever it stands.
 */
export function headOf(snapshot: Snapshot, knows: (templateId: string) => boolean): SaidAtHead | undefined {
  if (isCopy(snapshot)) return undefined;
  let template: readonly string[] | undefined;
  let hash = "";
  let functionsVersion = "";
  let office: string | undefined;
  for (const row of snapshot.cells) {
    for (const [column, { value, formula }] of row.entries()) {
      if (formula !== undefined && asksVersion(formula)) {
        // The version as built stands in the same row, a text like the one computed.
        functionsVersion =
          row
            .map((c) => (c.formula === undefined && typeof c.value === "string" ? c.value : ""))
            .find((text) => /^\d+\.\d+\.\d+$/.test(text)) ?? "";
      }
      if (typeof value !== "string" || formula !== undefined) continue;
      const said = /^([a-z0-9][a-z0-9-]*) (\d+\.\d+\.\d+)$/.exec(value);
      if (said && !template && (knows(said[1]!) || said[1]!.includes("-") || isLabelled(row))) template = said.slice(1);
      if (value === officeLabel) office ??= textAfter(row, column);
      if (hash === "" && /^[0-9a-f]{16}$/.test(value)) hash = value;
    }
  }
  return (
    template && {
      ...{ templateId: template[0]!, templateVersion: template[1]!, hash, functionsVersion },
      ...(office !== undefined && { office }),
    }
  );
}

const isLabelled = (row: Snapshot["cells"][number]): boolean => row.some(({ value }) => value === templateLabel);

/** The first text of a row to the right of a column. */
function textAfter(row: Snapshot["cells"][number], column: number): string | undefined {
  return row
    .slice(column + 1)
    .flatMap(({ value, formula }) =>
      typeof value === "string" && value !== "" && formula === undefined ? [value] : [],
    )[0];
}
