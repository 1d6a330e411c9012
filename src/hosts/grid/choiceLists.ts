import type { ICommandInfo } from "@univerjs/core";
import { a1, cut } from "../../cells/index.ts";
import { longestList } from "../xlsx/validations.ts";
import { choicesOf } from "./choicesOf.ts";
import type { GridRuntime, GridWorkbook } from "./runtime.ts";

interface Rule {
  readonly type?: string;
  formula1?: string;
  readonly ranges?: readonly { readonly startRow: number; readonly startColumn: number }[];
}
interface Params {
  readonly subUnitId?: string;
  readonly rule?: Rule | readonly Rule[];
  readonly payload?: { readonly type?: string; readonly payload?: unknown };
}

const lists: ReadonlySet<string> = new Set(["list", "listMultiple"]);

/** As many of the choices as a file holds, whole ones and without the sign that stands between them. */
function thoseThatFit(choices: readonly string[]): readonly string[] {
  let length = -1;
  return choices.filter((choice) => !choice.includes(",") && (length += choice.length + 1) <= longestList);
}

/**
 * Where no choice fits as it is: the beginning of each, up to its first comma and as long as a file takes. A list must
 * not become empty, since a list of one empty choice refuses every entry. Choices that begin alike are one.
 */
function beginnings(choices: readonly string[]): readonly string[] {
  const short = choices.flatMap((choice) => {
    const first = choice.split(",").find((part) => part.trim() !== "");
    return first === undefined ? [] : [cut(first.trim(), longestList)];
  });
  return thoseThatFit([...new Set(short)]);
}

/**
 * A list of choices is such as a workbook file holds: of one that is too long, or that has commas within choices, what
 * does not fit is left out, and told.
 */
export function limitChoiceLists(
  { core, univer }: GridRuntime,
  workbook: GridWorkbook,
  told: (text: string) => void,
): void {
  const limit = (rule: Rule, sheetId: string | undefined): void => {
    const { type, formula1 = "", ranges } = rule;
    if (type === undefined || !lists.has(String(type)) || formula1.startsWith("=")) return;
    const choices = choicesOf(formula1);
    const whole = thoseThatFit(choices);
    if (whole.length === choices.length) return;
    const kept = whole.length > 0 ? whole : beginnings(choices);
    rule.formula1 = kept.join(",");
    const first = ranges?.[0];
    const where = first ? a1({ row: first.startRow, column: first.startColumn }) : "the cells";
    const sheet = sheetId === undefined ? undefined : workbook.getSheetBySheetId(sheetId)?.getSheetName();
    told(
      `${sheet === undefined ? "" : `“${sheet}”: `}choices for ${where}: ${kept.length} of ${choices.length} are kept` +
        `${whole.length > 0 ? "" : ", shortened"}. A workbook file holds up to ${longestList} characters of a list, and ` +
        "no comma within a choice. For longer lists, put the choices in cells and refer to them.",
    );
  };
  univer
    .__getInjector()
    .get(core.ICommandService)
    .beforeCommandExecuted(({ id, params }: Readonly<ICommandInfo>) => {
      const { subUnitId, rule, payload } = (params ?? {}) as Params;
      if (id === "data-validation.mutation.addRule" && rule)
        for (const one of ([] as readonly Rule[]).concat(rule)) limit(one, subUnitId);
      if (id === "data-validation.mutation.updateRule" && payload?.payload && !Array.isArray(payload.payload))
        limit(payload.payload, subUnitId);
    });
}
