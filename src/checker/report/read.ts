import { cellAt, cellsOf, type Address, type CellContent } from "../../cells/index.ts";
import { columns, inputRoles, unconfirmedText, type Meaning, type PlannedCell, type Role } from "../../sheet/index.ts";
import { progressOf, readMarks } from "../marks/marks.ts";
import { partsOf } from "../marks/parts.ts";
import { readRevisions, type Revision } from "../marks/revisions.ts";
import { unconfirmedRows } from "../marks/unconfirmed.ts";
import type { Recognised } from "../recognise/recognised.ts";
import { standing } from "../recognise/standing.ts";

/** A cell of the sheet with what it is. */
export interface ReadCell {
  readonly meaning: Meaning;
  /** Where it stands now. */
  readonly at: Address;
  readonly content: CellContent;
  /** What stands in the column of marks of its row. */
  readonly mark: string;
}

/** What a number of the sheet stands for: one value, or a table. */
export type ReadItem =
  | { readonly kind: "input" | "linked" | "computed"; readonly item: string; readonly cell: ReadCell }
  | { readonly kind: "table"; readonly item: string; readonly title: string; readonly columns: readonly ReadColumn[] };

export interface ReadColumn {
  readonly meaning: Meaning;
  readonly kind: "input" | "linked" | "computed";
  /** The template's column of verdicts, whatever it shows now. */
  readonly isVerdict: boolean;
  /** From the first row to the last; a row that is gone is left out. */
  readonly cells: readonly ReadCell[];
}

export interface ReadBlock {
  readonly item: string;
  readonly title: string;
  readonly items: readonly ReadItem[];
}

export interface ReadCheck {
  readonly description: string;
  /** Empty where the row is gone. */
  readonly verdict: string;
  readonly utilisation: CellContent["value"];
  readonly where: string;
  /** It gathers verdicts of the sheet, and is told where it does not pass. */
  readonly aside?: true;
}

/** A sheet as a report tells it. */
export interface ReadSheet {
  readonly of: Recognised;
  readonly overall: string;
  readonly checks: readonly ReadCheck[];
  readonly warnings: readonly string[];
  /** Whether somebody has typed the code of these warnings; undefined where the sheet has no place for it. */
  readonly answered?: boolean;
  /** Project, member and so on, with what is entered. */
  readonly title: readonly (readonly [what: string, text: string])[];
  readonly blocks: readonly ReadBlock[];
  /** Inputs that nobody has confirmed yet. */
  readonly assumed: readonly string[];
  readonly revisions: readonly Revision[];
  readonly marks: { readonly parts: number; readonly marked: number; readonly stale: number };
}

/** "63 assumptions not confirmed", beside the overall verdict of the sheet; empty where there are none. */
export const assumedText = ({ assumed }: ReadSheet): string => unconfirmedText(assumed.length);

/** The verdict printed for a check whose row is missing. */
export const noVerdict = "NO VERDICT";

const linkedRoles: ReadonlySet<Role> = new Set(["linked", "linkedText"]);

function kindOf(role: Role | undefined): "input" | "linked" | "computed" {
  if (role !== undefined && (inputRoles.has(role) || role === "record")) return "input";
  return role !== undefined && linkedRoles.has(role) ? "linked" : "computed";
}

const shown = ({ text, error, value }: CellContent): string => error?.code ?? (text || String(value ?? ""));

/** What a cell shows. */
export const readCellText = ({ content }: ReadCell): string => shown(content);

/** The sheet's present contents, as far as a report needs them. */
export function readSheet(recognised: Recognised): ReadSheet {
  const { snapshot, plan } = recognised;
  const planned = new Map(plan.cells.map((cell): [string, PlannedCell] => [`${cell.row} ${cell.column}`, cell]));
  const contentAt = (at: Address): CellContent => {
    const now = standing(recognised, at);
    return now ? cellAt(snapshot, now.row, now.column) : { value: null, text: "" };
  };
  const textAt = (at: Address): string => shown(contentAt(at)).trim();
  const roleAt = ({ row, column }: Address): Role | undefined => planned.get(`${row} ${column}`)?.role;
  const markAt = (row: number): string => textAt({ row, column: columns.mark });
  const cellOf = (meaning: Meaning, row: number): ReadCell | undefined => {
    const at = standing(recognised, { row, column: meaning.at.column });
    return at && { meaning, at, content: cellAt(snapshot, at.row, at.column), mark: markAt(row) };
  };
  const columnOf = (meaning: Meaning): ReadColumn => ({
    meaning,
    kind: kindOf(roleAt(meaning.at)),
    isVerdict: roleAt(meaning.at) === "verdict",
    cells: Array.from({ length: meaning.at.rows }, (_, i) => cellOf(meaning, meaning.at.row + i)).filter(
      (cell) => cell !== undefined,
    ),
  });

  const parts = partsOf(plan);
  const titles = new Map(parts.flatMap(({ items }) => items.map(({ item, description }) => [item, description])));
  const byItem = new Map<string, Meaning[]>();
  for (const meaning of plan.meanings)
    if (meaning.item !== "") byItem.set(meaning.item, [...(byItem.get(meaning.item) ?? []), meaning]);
  const itemOf = (item: string, meanings: readonly Meaning[]): readonly ReadItem[] => {
    const [first] = meanings;
    if (meanings.length === 1 && first!.at.rows === 1 && first!.at.column === columns.value) {
      const cell = cellOf(first!, first!.at.row);
      return cell ? [{ kind: kindOf(roleAt(first!.at)), item, cell }] : [];
    }
    return [{ kind: "table", item, title: titles.get(item) ?? "", columns: meanings.map(columnOf) }];
  };
  // Workings stand at the end of the sheet and are told with the block they belong to.
  const blocks = parts.filter(({ block }, i) => parts.findIndex((one) => one.block.item === block.item) === i);
  const numberOf = (item: string): number => Number(item.split(".")[1] ?? 0);

  const { overall, checks, warnings, answer } = plan.summary;
  const progress = progressOf(recognised, readMarks(recognised));
  const total = (of: "parts" | "marked" | "stale"): number => progress.reduce((sum, one) => sum + one[of], 0);
  return {
    of: recognised,
    overall: textAt(overall),
    checks: checks.map((check) => ({
      description: check.description,
      verdict: textAt(check.verdict),
      utilisation: contentAt(check.utilisation).value,
      where: textAt(check.where),
      ...(check.aside && { aside: true as const }),
    })),
    warnings: cellsOf(warnings)
      .map(textAt)
      .filter((text) => text !== ""),
    ...(answer && { answered: textAt(answer.code) !== "" && textAt(answer.code) === textAt(answer.typed) }),
    title: plan.meanings
      .filter(({ item, at }) => item === "" && kindOf(roleAt(at)) === "input")
      .map(({ description, at }) => [description, textAt(at)] as const),
    blocks: blocks.map(({ block: { item, description } }) => ({
      item,
      title: description,
      items: [...byItem]
        .filter(([of]) => of.split(".")[0] === item)
        .sort(([a], [b]) => numberOf(a) - numberOf(b))
        .flatMap(([of, meanings]) => itemOf(of, meanings)),
    })),
    assumed: unconfirmedRows(recognised).flatMap((row) => {
      const part = parts.flatMap(({ items }) => items).find(({ first, last }) => row >= first && row <= last);
      const which = part && part.kind === "table" && row > part.first ? `, row ${row - part.first}` : "";
      return part ? [`${part.item} ${part.description}${which}`] : [];
    }),
    revisions: readRevisions(recognised)?.revisions ?? [],
    marks: { parts: total("parts"), marked: total("marked"), stale: total("stale") },
  };
}
