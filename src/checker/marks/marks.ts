import { quotedText, type Address, areaA1, cellAt, readFormula, UnreadableFormula } from "../../cells/index.ts";
import { stale as staleWord } from "../../core/index.ts";
import type { CellContent, InsertedCell } from "../../hosts/index.ts";
import { columns } from "../../sheet/index.ts";
import type { Recognised } from "../recognise/recognised.ts";
import { partsOf, type BlockParts, type Part } from "./parts.ts";
import { areasOf, readSeal, sealNow, sealOf, sealText } from "./seal.ts";
import { readWordFormula, wordsInOrder } from "./wordFormula.ts";
import { isOfPart } from "./wordMarks.ts";

export type MarkState = "holds" | "stale: values changed" | "stale: formulas changed" | "astray" | "unreadable";

/** A mark that stands on the sheet. */
export interface Mark {
  readonly part: Part;
  readonly by: string;
  readonly date: string;
  readonly state: MarkState;
  /** Where it stands now. */
  readonly at: Address;
  /** As the sheet shows it. */
  readonly text: string;
}

export type EnteredCell = Pick<InsertedCell, "row" | "column" | "value" | "formula">;

/** The formula of a mark: whose, its day, the seal of the part, and its cells. */
export function markFormula(part: Part, recognised: Recognised, by: string, date: string): string {
  const ranges = areasOf(part, recognised).map((area) => areaA1(area));
  return `=KERN.CHECKED(${[quotedText(by), quotedText(date), quotedText(sealText(sealOf(part, recognised))), ...ranges].join(",")})`;
}

interface Written {
  readonly by: string;
  readonly date: string;
  readonly seal: string;
}

/** What a mark's formula says; undefined for anything else. */
export function readMarkFormula(formula: string | undefined): Written | undefined {
  if (formula === undefined) return undefined;
  let call;
  try {
    [call] = readFormula(formula).calls;
  } catch (error) {
    // What is no formula is no mark; the caller says that it cannot be read.
    if (!(error instanceof UnreadableFormula)) throw error;
    return undefined;
  }
  if (call?.id !== "CHECKED" || !call.whole) return undefined;
  const [by, date, seal] = call.arguments.slice(0, 3).map((a) => (a.kind === "literal" ? String(a.value) : undefined));
  return by === undefined || date === undefined || seal === undefined ? undefined : { by, date, seal };
}

/** Whether what was sealed still stands: by what the sheet shows, and by the cells themselves, whatever ranges a formula names. */
export function stateOf(content: CellContent, sealed: string, part: Part, recognised: Recognised): MarkState {
  const then = readSeal(sealed);
  if (!then) return "unreadable";
  const named = sealNow(part, recognised);
  const now = named?.values === then.values ? named : sealNow(part, recognised, "all");
  if (now?.values !== then.values || String(content.value).startsWith(staleWord)) return "stale: values changed";
  return now.formulas === then.formulas ? "holds" : "stale: formulas changed";
}

function markCell(part: Part, { rowNow, columnNow }: Recognised): Address | undefined {
  const row = part.markRow === undefined ? undefined : rowNow(part.markRow);
  const column = columnNow(columns.mark);
  return row === undefined || column === undefined ? undefined : { row, column };
}

const allParts = (blocks: readonly BlockParts[]): readonly Part[] =>
  blocks.flatMap(({ block, items }) => [block, ...items]);

/**
 * Every mark on the sheet, from its top down. What was typed into a mark's cell by hand is unreadable: it says nothing
 * of what was marked. A word that follows inputs is astray where they are not those it stands beside.
 */
export function readMarks(recognised: Recognised): readonly Mark[] {
  return allParts(partsOf(recognised.plan))
    .flatMap((part): Mark[] => {
      const at = markCell(part, recognised);
      const content = at && cellAt(recognised.snapshot, at.row, at.column);
      if (!content || ((content.value === null || content.value === "") && content.formula === undefined)) return [];
      // Nobody has signed what is still assumed, or what came from a record or the office's defaults.
      const words = content.formula === undefined ? undefined : readWordFormula(content.formula);
      const unsigned = { part, by: "", date: "", at, text: content.text };
      if (words) return isOfPart(words, part, recognised) ? [] : [{ ...unsigned, state: "astray" }];
      if (content.formula === undefined && wordsInOrder.includes(String(content.value))) return [];
      const written = readMarkFormula(content.formula);
      if (!written) return [{ ...unsigned, state: "unreadable" }];
      return [
        {
          part,
          by: written.by,
          date: written.date,
          state: stateOf(content, written.seal, part, recognised),
          at,
          text: content.text,
        },
      ];
    })
    .sort((a, b) => a.at.row - b.at.row);
}

/**
 * The cells that put a mark on the sheet.
 * @throws NotMarkable where cells of the part show an error, or its row is gone
 */
export function markCells(part: Part, recognised: Recognised, by: string, date: string): readonly EnteredCell[] {
  const formula = markFormula(part, recognised, by, date);
  return [{ ...markCell(part, recognised)!, formula }];
}

/** The cells that take a mark off. */
export function unmarkCells({ at }: Mark): readonly EnteredCell[] {
  return [{ ...at, value: "" }];
}

/** How far a block is checked: its rows and tables, each marked by its own mark or the block's. */
export interface BlockProgress {
  readonly block: Part;
  readonly parts: number;
  readonly marked: number;
  readonly stale: number;
  readonly open: number;
}

/** How far each block is checked, in the order of the sheet. */
export function progressOf({ plan }: Recognised, marks: readonly Mark[]): readonly BlockProgress[] {
  const byRow = new Map(marks.map((mark) => [mark.part.first, mark] as const));
  return partsOf(plan).map(({ block, items }) => {
    const ofBlock = byRow.get(block.first);
    const states = (items.length > 0 ? items : [block]).map((item) => {
      const both = [byRow.get(item.first), ofBlock].flatMap((mark) => (mark ? [mark.state] : []));
      if (both.includes("holds")) return "marked";
      return both.some((state) => state.startsWith("stale")) ? "stale" : "open";
    });
    const count = (wanted: string): number => states.filter((state) => state === wanted).length;
    return { block, parts: states.length, marked: count("marked"), stale: count("stale"), open: count("open") };
  });
}
