import { a1, areaA1 } from "../../src/cells/index.ts";
import type { IRange, IStyleData } from "@univerjs/core";
import type { GridHost } from "../../src/hosts/index.ts";
import type { nodeGrid } from "../../src/hosts/grid/node.ts";
import type { Plan } from "../../src/sheet/index.ts";
import { halfCharacters, type Picture, type PicturedRule, type PicturedStyle } from "./picture.ts";

type Grid = ReturnType<typeof nodeGrid>;
type Sheet = NonNullable<ReturnType<Grid["workbook"]["getSheetByName"]>>;

interface Edge {
  readonly s: number;
  readonly cl: { readonly rgb?: string | null };
}

function styleOf({ runtime: { core } }: Grid, style: IStyleData): PicturedStyle {
  const { BooleanNumber, BorderStyleTypes, HorizontalAlign, WrapStrategy } = core;
  const lines: Readonly<Record<number, string>> = {
    [BorderStyleTypes.THIN]: "thin",
    [BorderStyleTypes.MEDIUM]: "medium",
    [BorderStyleTypes.DOTTED]: "dotted",
  };
  const aligned: Readonly<Record<number, PicturedStyle["align"]>> = {
    [HorizontalAlign.LEFT]: "left",
    [HorizontalAlign.CENTER]: "center",
    [HorizontalAlign.RIGHT]: "right",
  };
  const edges = { top: style.bd?.t, right: style.bd?.r, bottom: style.bd?.b, left: style.bd?.l } as Readonly<
    Record<"top" | "right" | "bottom" | "left", Edge | null | undefined>
  >;
  return {
    size: style.fs!,
    bold: style.bl === BooleanNumber.TRUE,
    italic: style.it === BooleanNumber.TRUE,
    color: style.cl!.rgb!.toLowerCase(),
    background: style.bg?.rgb?.toLowerCase() ?? null,
    border: Object.fromEntries(
      Object.entries(edges)
        .filter(([, edge]) => edge)
        .map(([side, edge]) => [side, `${lines[edge!.s]} ${edge!.cl.rgb!.toLowerCase()}`]),
    ),
    align: aligned[style.ht ?? -1] ?? null,
    wrap: style.tb === WrapStrategy.WRAP,
  };
}

interface Rule {
  readonly type: string;
  readonly allowBlank?: boolean;
  readonly formula1?: string;
  readonly formula2?: string;
  readonly errorTitle?: string;
  readonly error?: string;
  readonly errorStyle?: number;
  readonly showErrorMessage?: boolean;
}

function ruleOf({ runtime: { core } }: Grid, rule: Rule): PicturedRule {
  const { DataValidationErrorStyle, DataValidationType } = core;
  if (rule.errorStyle !== (DataValidationErrorStyle.STOP as number) || !rule.showErrorMessage)
    throw new Error("the grid does not refuse wrong entries");
  if (rule.type === (DataValidationType.LIST as string)) return { kind: "list", values: rule.formula1!.split(",") };
  return {
    kind: "number",
    least: Number(rule.formula1),
    most: Number(rule.formula2),
    whole: rule.type === (DataValidationType.WHOLE as string),
  };
}

/** Sheet-scoped names stand in the grid under hidden ones of their own. */
async function namesOf(host: GridHost, sheet: string, plan: Plan): Promise<Readonly<Record<string, string>>> {
  const found: [string, string][] = [];
  for (const { name } of plan.names) {
    const reference = await host.resolveName(name, sheet);
    if (reference !== undefined)
      found.push([name, reference.slice(reference.lastIndexOf("!") + 1).replaceAll("$", "")]);
  }
  return Object.fromEntries(found);
}

/** The sheet as the grid itself keeps it. */
export async function gridPicture(grid: Grid, name: string, plan: Plan): Promise<Picture> {
  const { host, workbook } = grid;
  const sheet: Sheet = workbook.getSheetByName(name)!;
  const raw = sheet.getSheet();
  const area = { row: 0, column: 0, rows: plan.rows, columns: plan.columns };
  const contents = await host.read(name, area);
  const styles = workbook.getWorkbook().getStyles();
  const permission = sheet.getWorksheetPermission();
  const merged = raw.getMergeData().map(({ startRow, startColumn, endRow, endColumn }) => ({
    row: startRow,
    column: startColumn,
    rows: endRow - startRow + 1,
    columns: endColumn - startColumn + 1,
  }));
  const within = new Set(
    merged.flatMap((span) =>
      Array.from(
        { length: span.rows * span.columns - 1 },
        (_, i) => `${span.row + Math.floor((i + 1) / span.columns)} ${span.column + ((i + 1) % span.columns)}`,
      ),
    ),
  );
  const cells: Record<string, Picture["cells"][string]> = {};
  let locked = false;
  for (let row = 0; row < plan.rows; row++) {
    for (let column = 0; column < plan.columns; column++) {
      const unlocked = permission.canEditCell(row, column);
      if (!unlocked) locked = true;
      const cell = raw.getCellRaw(row, column);
      const style = cell && styles.getStyleByCell(cell);
      if (!cell || !style || within.has(`${row} ${column}`)) continue;
      const { value, formula, error } = contents[row]![column]!;
      cells[a1({ row, column })] = {
        value,
        ...(error && { error: error.code }),
        ...(formula !== undefined && { formula }),
        format: style.n?.pattern ?? "General",
        style: styleOf(grid, style),
        unlocked,
      };
    }
  }
  const { xSplit, ySplit } = raw.getFreeze();
  const rules = sheet.getDataValidations().map(({ rule }) => rule);
  return {
    cells,
    names: await namesOf(host, name, plan),
    validations: Object.fromEntries(
      rules.flatMap((rule) =>
        (rule.ranges as readonly IRange[]).map(({ startRow, startColumn, endRow, endColumn }) => [
          areaA1(
            { row: startRow, column: startColumn, rows: endRow - startRow + 1, columns: endColumn - startColumn + 1 },
            false,
          ),
          {
            rule: ruleOf(grid, rule),
            allowBlank: rule.allowBlank === true,
            title: rule.errorTitle ?? "",
            message: rule.error ?? "",
          },
        ]),
      ),
    ),
    protected: locked,
    spans: merged.map((span) => areaA1(span, false)),
    freeze: { rows: ySplit, columns: xSplit },
    widths: plan.widths.map((_, column) => halfCharacters(sheet.getColumnWidth(column) / 7.8)),
  };
}
