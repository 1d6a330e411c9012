import { cellAt, type Snapshot } from "../../cells/index.ts";
import { styles, type CellContent } from "../../hosts/index.ts";
import type { Print, Role } from "../../sheet/index.ts";
import { plainRole, type Look } from "./look.ts";

/** In characters: so much of a sheet stands on one page that can be read without a glass. */
const readable = 170;
/** What formulas have beside the sheet at least and at most: columns cannot be wider than 255. */
const [leastFormulas, mostFormulas] = [84, 240];
const gap = 2;

/** In characters; columns of sentences keep what makes lines that can be read. */
const [narrowest, ofSentences, sentence] = [8, 32, 24];

/** What stands in rows of its own lines, or may run over empty cells beside it, asks for no width. */
const asksNothing: ReadonlySet<Role> = new Set([
  "title",
  "subtitle",
  "block",
  "note",
  "caution",
  "equation",
  "source",
  "overall",
]);

/** Words part at blanks and dashes where a text wraps; what does not wrap is taken whole. */
function widthOf(content: CellContent, role: Role): number {
  const { wrap, bold } = styles[role];
  if (typeof content.value === "number") return content.text.length + 2;
  const longest = Math.max(...(wrap ? content.text.split(/\s+|(?<=-)/) : [content.text]).map((word) => word.length));
  return Math.ceil(longest * (bold ? 1 : 0.95)) + 1;
}

/** Widths of the copied columns, no wider than what stands in them needs: the narrower the sheet, the larger it is printed. */
export function fittedWidths(snapshot: Snapshot, look: Look): readonly number[] {
  const joined = new Set(
    look.spans.flatMap(({ row, column, columns }) => Array.from({ length: columns }, (_, i) => `${row} ${column + i}`)),
  );
  return look.widths.map((width, column) => {
    let needed = narrowest;
    for (let row = 0; row < snapshot.rows; row++) {
      const content = cellAt(snapshot, row, column);
      const role = look.roleAt(row, column) ?? plainRole(snapshot, row, column);
      if (content.text === "" || joined.has(`${row} ${column}`) || asksNothing.has(role)) continue;
      // A heading may run over the columns beside that have none.
      if (role === "heading" && cellAt(snapshot, row, column + 1).text === "") continue;
      needed = Math.max(
        needed,
        widthOf(content, role),
        styles[role].wrap && role !== "tableHeading" && content.text.length > sentence ? ofSentences : 0,
      );
    }
    return Math.min(width, needed);
  });
}

interface Sides {
  /** Of the empty column between the sheet and its formulas, and of the formulas. */
  readonly gap: number;
  readonly formulas: number;
  readonly pagesWide: 1 | 2;
}

const total = (widths: readonly number[]): number => widths.reduce((sum, width) => sum + width, 0);

/**
 * Formulas beside a narrow sheet. A wide one is printed over two facing pages: `left` of its columns on the one,
 * those that only wide tables have and the
 * formulas on the other. Both are of one width, so that programs part the pages there by themselves.
 */
export function sidesFor(widths: readonly number[], left: number): Sides {
  if (total(widths) + gap + leastFormulas <= readable) return { gap, formulas: leastFormulas, pagesWide: 1 };
  const wanted = total(widths.slice(0, left)) - total(widths.slice(left)) - gap;
  return { gap, formulas: Math.min(mostFormulas, Math.max(leastFormulas, wanted)), pagesWide: 2 };
}

/** Lengths in points: of A4 lying within its margins, of a character's width, of a line and what is around the lines of a row. */
const page = { width: 770, height: 509 } as const;
const [perCharacter, perColumn, perLine, perRow] = [5.25, 3.75, 13, 3];
/** What letters and numbers take at the side. */
const addresses = 30;

/** A block that fits a page is not parted; a longer one begins a page where more than this of one is filled. */
const filled = 1 / 3;

/** Rows that begin a page: blocks, where the page before is filled or the block would be parted. */
export function breaksBefore(
  blocks: readonly number[],
  rows: number,
  pageWidths: readonly number[],
  titleRows: readonly [number, number],
  linesAt: (row: number) => number,
): NonNullable<Print["breaks"]> {
  const height = (from: number, to: number): number =>
    Array.from({ length: Math.max(0, to - from) }, (_, i) => linesAt(from + i) * perLine + perRow).reduce(
      (a, b) => a + b,
      0,
    );
  const scale = Math.min(
    1,
    page.width / (addresses + pageWidths.reduce((sum, width) => sum + width * perCharacter + perColumn, 0)),
  );
  const room = page.height / scale - height(titleRows[0], titleRows[1] + 1);
  const breaks: number[] = [];
  let used = height(titleRows[1] + 1, blocks[0] ?? rows) % room;
  blocks.forEach((row, i) => {
    const block = height(row, blocks[i + 1] ?? rows);
    if (used + block > room && (block <= room || used > filled * room)) {
      breaks.push(row);
      used = 0;
    }
    used = (used + block) % room;
  });
  return breaks;
}
