import type { Area } from "../../src/cells/index.ts";
import type { Validation } from "../../src/sheet/index.ts";
import type { CellValue } from "../../src/hosts/index.ts";
import { defaultStyle, type CellStyle } from "../../src/hosts/index.ts";

/** The look of a cell with everything said: what a style leaves out has its default here. Colours are `#rrggbb` in small letters. */
export interface PicturedStyle {
  readonly size: number;
  readonly bold: boolean;
  readonly italic: boolean;
  readonly color: string;
  readonly background: string | null;
  /** One entry a side that has a line: "medium #24505f". */
  readonly border: Readonly<Partial<Record<"top" | "right" | "bottom" | "left", string>>>;
  readonly align: "left" | "center" | "right" | null;
  readonly wrap: boolean;
}

export interface PicturedCell {
  /** At full precision; null for an empty cell and for an error. */
  readonly value: CellValue;
  /** The error's code where the cell shows one. */
  readonly error?: string;
  /** As typed, with its `=`. */
  readonly formula?: string;
  /** Number format; "General" where nothing is said. */
  readonly format: string;
  readonly style: PicturedStyle;
  /** May be typed into although the sheet is protected. */
  readonly unlocked: boolean;
}

/** What a cell accepts. Exclusive bounds are told by the next number within, so that every host's way of saying them compares equal. */
export type PicturedRule =
  | { readonly kind: "number"; readonly least: number; readonly most: number; readonly whole: boolean }
  | { readonly kind: "list"; readonly values: readonly string[] };

export interface PicturedValidation {
  readonly rule: PicturedRule;
  readonly allowBlank: boolean;
  /** Of the refusal of a wrong entry. */
  readonly title: string;
  readonly message: string;
  /** Shown while the cell is selected; absent where the host has no such messages. */
  readonly prompt?: { readonly title: string; readonly message: string };
}

/**
 * A built sheet as neutral data: every host's adaptor gives the same for the same plan. Cells and areas are named as
 * on the sheet, without dollar signs: "C3", "A2:E2".
 */
export interface Picture {
  /** Every cell that holds something or has a look of its own; of joined cells the first only. */
  readonly cells: Readonly<Record<string, PicturedCell>>;
  /** Area by name; sheet-scoped names only. */
  readonly names: Readonly<Record<string, string>>;
  /** By area. */
  readonly validations: Readonly<Record<string, PicturedValidation>>;
  /** Conditional looks: "F7 OK" and the colours; absent where the host draws none (a grid without a screen). */
  readonly highlights?: Readonly<Record<string, { readonly color: string; readonly background: string }>>;
  readonly protected: boolean;
  /** In the order of the sheet. */
  readonly spans: readonly string[];
  readonly freeze: { readonly rows: number; readonly columns: number };
  /** Column widths in characters, to the nearest half. */
  readonly widths: readonly number[];
  /** Absent where the host does not print. */
  readonly print?: {
    readonly area: string;
    readonly titleRows: readonly [number, number];
    readonly orientation: string;
    readonly footer: string;
  };
  /** Absent where the host draws no charts on the sheet. Cells of each series in the order of drawing; the title as shown. */
  readonly charts?: readonly {
    readonly title: string;
    readonly log: boolean;
    readonly down: boolean;
    readonly series: readonly {
      readonly name: string;
      readonly kind: string;
      readonly x: string;
      readonly y: string;
    }[];
  }[];
}

const everySide = ["top", "right", "bottom", "left"] as const;
const sidesOf = { all: everySide, below: ["bottom"], above: ["top"] } as const;

/** A style of `src/hosts/styles.ts` with everything said. */
export function picturedStyle(style: CellStyle): PicturedStyle {
  const { border } = style;
  return {
    size: style.size ?? defaultStyle.size!,
    bold: style.bold === true,
    italic: style.italic === true,
    color: (style.color ?? defaultStyle.color!).toLowerCase(),
    background: style.background?.toLowerCase() ?? null,
    border: border
      ? Object.fromEntries(sidesOf[border.sides].map((side) => [side, `${border.line} ${border.color.toLowerCase()}`]))
      : {},
    align: style.align ?? null,
    wrap: style.wrap === true,
  };
}

/** The next number up or down. */
export function neighbour(value: number, up: boolean): number {
  if (value === 0) return up ? Number.MIN_VALUE : -Number.MIN_VALUE;
  const view = new DataView(new ArrayBuffer(8));
  view.setFloat64(0, value);
  view.setBigInt64(0, view.getBigInt64(0) + (value > 0 === up ? 1n : -1n));
  return view.getFloat64(0);
}

/** A rule in the plan's words as a picture has it. */
export function picturedRule(rule: Validation["rule"]): PicturedRule {
  if (rule.kind === "list") return { kind: "list", values: rule.values };
  const { min, max, above, below } = rule;
  return {
    kind: "number",
    least: min ?? (above === undefined ? -Number.MAX_VALUE : neighbour(above, true)),
    most: max ?? (below === undefined ? Number.MAX_VALUE : neighbour(below, false)),
    whole: rule.whole === true,
  };
}

export const singleCell = (row: number, column: number): Area => ({ row, column, rows: 1, columns: 1 });

/** A whole number of half characters. */
export const halfCharacters = (width: number): number => Math.round(width * 2) / 2;
