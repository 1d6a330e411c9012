import { InputError, sealOfValues, stale, text, type Argument, type Cell } from "../src/core/index.ts";

const params = {
  by: text({
    key: "markBy",
    symbol: "by",
    text: 'whose mark it is, as text: initials such as "AB", or a revision',
    example: '"AB"',
  }),
  date: text({
    key: "markDate",
    symbol: "date",
    text: 'the day of the mark, as text: "2026-11-26"',
    example: '"2026-11-26"',
  }),
  seal: text({
    key: "markSeal",
    symbol: "seal",
    text: "what the panel took of the cells when they were marked, as text",
    example: '"0123456789abcdef"',
  }),
  cells: text({
    key: "markedCells",
    symbol: "cells",
    text: "the cells marked, one range after another",
    example: "A1:K1",
  }),
} as const;

const longestBy = 20;
/** 9999-12-31, where the calendars of programs end. */
const lastDay = 2_958_465;

/** What an argument of one cell holds. */
function only(argument: Argument, name: keyof typeof params, example: string): string | number | boolean {
  const rows = Array.isArray(argument) ? (argument as readonly (readonly Cell[])[]) : [[argument as Cell]];
  if (rows.length !== 1 || rows[0]!.length !== 1)
    throw new InputError(name, `${name} is a range of several cells; a text is needed, such as “${example}”`);
  const cell = rows[0]![0];
  if (cell === null || cell === undefined || cell === "")
    throw new InputError(name, `${name} is missing; a text is needed, such as “${example}”`);
  return cell;
}

function textOf(argument: Argument, name: keyof typeof params, example: string): string {
  const cell = only(argument, name, example);
  if (typeof cell !== "string")
    throw new InputError(
      name,
      `${name} is a ${typeof cell === "number" ? "number" : "truth value"}; a text is needed, such as “${example}”`,
    );
  if (cell.trim() === "")
    throw new InputError(name, `${name} holds spaces only; a text is needed, such as “${example}”`);
  return cell.trim();
}

const quoted = (value: string): string => `“${value.length > 30 ? `${value.slice(0, 29)}…` : value}”`;

/** The day a program's number stands for: some make one of a text that reads as a date. */
function dayOf(argument: Argument): string {
  const cell = only(argument, "date", "2026-11-26");
  if (typeof cell !== "number" || !Number.isInteger(cell) || cell < 1 || cell > lastDay)
    return textOf(argument, "date", "2026-11-26");
  return new Date(Date.UTC(1899, 11, 30) + cell * 86_400_000).toISOString().slice(0, 10);
}

function isDay(value: string): boolean {
  const [, year, month, day] = /^(\d{4})-(\d{2})-(\d{2})$/.exec(value)?.map(Number) ?? [];
  if (year === undefined || month === undefined || day === undefined) return false;
  const made = new Date(Date.UTC(year, month - 1, day));
  return made.getUTCMonth() === month - 1 && made.getUTCDate() === day;
}

/**
 * The function in which a checker's mark stands on the sheet: it gives whose mark it is and its day while the cells
 * hold what they held when they were marked, and begins with STALE once they do not. Whether formulas are still those
 * that were marked, the panel says.
 */
export const checkedFunction = {
  id: "CHECKED",
  summary:
    "A checker's mark: whose and of which day, with STALE before it once the marked cells hold other values than when they were marked",
  params,
  repeating: "cells",
  compute: ([by, date, seal, ...cells]: readonly Argument[]): string => {
    const name = textOf(by, "by", "AB");
    if (name.length > longestBy)
      throw new InputError("by", `by = ${quoted(name)} has ${name.length} characters; allowed: at most ${longestBy}`);
    const day = dayOf(date);
    if (!isDay(day))
      throw new InputError("date", `date = ${quoted(day)} is no day; allowed: a date such as “2026-11-26”`);
    const sealed = textOf(seal, "seal", "0123456789abcdef");
    const [values] = /^[0-9a-f]{16}(?=\.[0-9a-f]{16}$|$)/.exec(sealed) ?? [];
    if (values === undefined)
      throw new InputError(
        "seal",
        `seal = ${quoted(sealed)} is none of the panel's seals; mark the cells again under Sign off`,
      );
    if (cells.length === 0) throw new InputError("cells", "cells (the ranges that are marked) are missing");
    const ranges = cells.map((cell) =>
      Array.isArray(cell) ? (cell as readonly (readonly Cell[])[]) : [[cell as Cell]],
    );
    return `${sealOfValues(ranges) === values ? "" : `${stale}: `}${name} ${day}`;
  },
} as const;
