import type { ICellData, IDocumentData, Nullable } from "@univerjs/core";
import { textWidth, type Letters } from "../../sheet/index.ts";
import type { BookLook } from "../workbook/workbook.ts";
import type { GridRuntime } from "./runtime.ts";

type Core = GridRuntime["core"];

/** What is lowered in a text that is drawn plain: the grid keeps it with the cell, whatever is typed there later. */
interface Kept {
  readonly text: string;
  readonly lowered: readonly Letters[];
}

/**
 * A text with subscripts as the grid draws it, beside the plain text, which is what it reads. The grid cuts such a text
 * at the edge of its cell, so that texts which run on are drawn plain and only keep what is lowered.
 */
export function withSubscripts(
  core: Core,
  text: string,
  lowered: readonly Letters[],
  look: BookLook,
  width: number,
): ICellData {
  if (textWidth(text) > width) return { custom: { subscripts: { text, lowered } satisfies Kept } };
  const letters = {
    ...(look.font !== undefined && { ff: look.font }),
    ...(look.size !== undefined && { fs: look.size }),
    ...(look.color !== undefined && { cl: { rgb: look.color } }),
    ...(look.bold && { bl: core.BooleanNumber.TRUE }),
    ...(look.italic && { it: core.BooleanNumber.TRUE }),
  };
  const edges = [0, ...lowered.flat(), text.length];
  const textRuns = edges.slice(0, -1).flatMap((st, i) => {
    const ed = edges[i + 1]!;
    const low = i % 2 === 1 && { va: core.BaselineOffset.SUBSCRIPT };
    return ed > st ? [{ st, ed, ts: { ...letters, ...low } }] : [];
  });
  const p: IDocumentData = {
    id: "d",
    documentStyle: {},
    body: {
      dataStream: `${text}\r\n`,
      textRuns,
      paragraphs: [{ startIndex: text.length, paragraphStyle: {} }],
    },
  };
  return { v: text, t: core.CellValueType.STRING, p };
}

/** The subscripts of a cell's text. */
export function subscriptsOf({ BaselineOffset }: Core, cell: Nullable<ICellData>): readonly Letters[] {
  const kept = cell?.custom?.["subscripts"] as Kept | undefined;
  if (kept && kept.text === cell?.v) return kept.lowered;
  return (cell?.p?.body?.textRuns ?? []).flatMap(({ st, ed, ts }): readonly Letters[] =>
    ts?.va === BaselineOffset.SUBSCRIPT ? [[st, ed]] : [],
  );
}
