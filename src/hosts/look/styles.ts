import type { PlannedCell, Role } from "../../sheet/index.ts";

/** How a cell of some role looks: every host draws from this one table. Colours are `#rrggbb`. */
export interface CellStyle {
  readonly size?: number;
  readonly bold?: true;
  readonly italic?: true;
  readonly color?: string;
  readonly background?: string;
  /** A line round the cell or under it. Inputs have one, so that they are told apart without colour too. */
  readonly border?: {
    readonly sides: "all" | "below" | "above";
    readonly line: "thin" | "medium" | "dotted";
    readonly color: string;
  };
  readonly align?: "left" | "center" | "right";
  /** Steps of about two letters between the text and the edge it stands at. */
  readonly indent?: number;
  readonly wrap?: true;
  /** Where a text stands in its cell; otherwise in the middle. */
  readonly vertical?: "bottom";
  /** What is too long for its cell is drawn smaller, where a program can. */
  readonly shrink?: true;
}

const ink = "#1d2733";
const quiet = "#56626f";
const slate = "#24505f";
const mist = "#e6eef0";
const line = "#b9c4cb";
const inputFill = "#fdf6df";
const inputLine = "#8a6d1f";
const cautionInk = "#7a2e12";
const cautionFill = "#fbeee7";

const linkedFill = "#e4eefb";
const linkedLine = "#2f5f9e";
const inputBorder = { sides: "all", line: "medium", color: inputLine } as const;
const linkedBorder = { sides: "all", line: "thin", color: linkedLine } as const;
const rule = { sides: "below", line: "dotted", color: line } as const;

export const defaultStyle: CellStyle = { size: 10, color: ink };

export const styles: Readonly<Record<Role, CellStyle>> = {
  title: { size: 13, bold: true, color: slate },
  subtitle: { color: quiet },
  caution: { color: cautionInk, background: cautionFill, wrap: true },
  block: { size: 12, bold: true, color: "#ffffff", background: slate },
  note: { italic: true, color: quiet, wrap: true },
  heading: { bold: true, color: slate, border: { sides: "below", line: "medium", color: slate } },
  headingRight: {
    bold: true,
    color: slate,
    align: "right",
    border: { sides: "below", line: "medium", color: slate },
  },
  headingIn: {
    bold: true,
    color: slate,
    align: "left",
    indent: 1,
    border: { sides: "below", line: "medium", color: slate },
  },
  tableHeading: { bold: true, background: mist, wrap: true, align: "center" },
  tableSymbol: { background: mist, align: "right", italic: true, shrink: true },
  tableWord: { background: mist, align: "left", italic: true },
  tableWordIn: { background: mist, align: "left", indent: 1, italic: true },
  tableUnit: { color: quiet, background: mist, align: "right", border: { sides: "below", line: "thin", color: line } },
  item: { color: quiet, align: "left" },
  description: { wrap: true },
  wordIn: { align: "left", indent: 1, wrap: true },
  symbol: { align: "center", italic: true, shrink: true },
  value: { align: "right", border: rule, shrink: true },
  unit: { color: quiet, align: "left", indent: 1 },
  equation: { color: quiet, wrap: true },
  source: { color: quiet, wrap: true },
  mark: { align: "left", border: { sides: "all", line: "dotted", color: line } },
  bound: { color: quiet, align: "center", shrink: true },
  input: { align: "right", background: inputFill, border: inputBorder },
  choice: { align: "left", indent: 1, background: inputFill, border: inputBorder, shrink: true },
  textInput: { align: "left", wrap: true, background: inputFill, border: inputBorder },
  linkedText: { align: "left", background: linkedFill, border: linkedBorder },
  linked: { align: "right", background: linkedFill, border: linkedBorder, shrink: true },
  record: { align: "left", wrap: true, border: { sides: "all", line: "dotted", color: line } },
  shape: { align: "right", bold: true, background: mist, border: { sides: "all", line: "thin", color: slate } },
  // From the left edge a word that is too long runs on over the column of marks instead of losing both its ends.
  verdict: { align: "left", bold: true },
  overall: { size: 12, align: "center", bold: true, border: { sides: "all", line: "medium", color: slate } },
  warning: { color: cautionInk, wrap: true },
  label: { color: quiet },
  listed: { italic: true, align: "left", shrink: true },
  titleRight: { color: slate, align: "right", bold: true, wrap: true },
  band: { size: 12, bold: true, background: mist },
  bandText: { bold: true, background: mist, wrap: true },
  fieldLabel: { color: quiet },
  field: { align: "left" },
  checkValue: { align: "right", border: rule, shrink: true },
  checkWhere: { align: "left", indent: 1, border: rule, wrap: true },
  utilisation: { bold: true, align: "right", border: rule },
};

/** What does not follow the inputs of a copy: slanted on grey, with a line of dots around it, so that it shows without colour. */
const staying = {
  italic: true,
  background: "#e7e9ec",
  border: { sides: "all", line: "dotted", color: quiet },
} as const satisfies CellStyle;

/** What makes cells of a role look alike. */
export const lookKey = ({ role, runsOn, stays }: Pick<PlannedCell, "role" | "runsOn" | "stays">): string =>
  `${role} ${runsOn ?? ""} ${stays ?? ""}`;

/** How a cell looks. */
export function styleOf({ role, runsOn, stays }: Pick<PlannedCell, "role" | "runsOn" | "stays">): CellStyle {
  const style = stays ? { ...styles[role], ...staying } : styles[role];
  if (!runsOn) return style;
  const { wrap: _wrap, shrink: _shrink, ...rest } = style;
  return rest;
}

/**
 * Programs take the line of a text with subscripts for higher than it is: in a row of one line only what stands at its
 * foot is drawn whole.
 */
export function styleInRow(
  cell: Pick<PlannedCell, "role" | "runsOn" | "stays" | "lowered" | "row">,
  isLow: (row: number) => boolean,
): { readonly key: string; readonly style: CellStyle } {
  const key = lookKey(cell);
  const style = styleOf(cell);
  return cell.lowered && isLow(cell.row)
    ? { key: `${key} low`, style: { ...style, vertical: "bottom" } }
    : { key, style };
}

/** Cells coloured by their text; the words themselves say the same. */
export const tones = {
  good: { color: "#14532d", background: "#dff3e4" },
  bad: { color: "#8c1d18", background: "#fbe1de" },
  open: { color: "#6b4a00", background: "#fff0c9" },
} as const satisfies Record<string, CellStyle>;
