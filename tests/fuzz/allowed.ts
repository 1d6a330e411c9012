import type { Argument, Cell, Choice, Parameter, Quantity, Table } from "../../src/core/index.ts";

// What the declarations allow, said a second time without the core's own reading.

const blank = (cell: Cell): boolean => cell === null || cell === undefined || cell === "";

function numberAllowed(q: Quantity, cell: Cell): boolean {
  if (blank(cell)) return q.default !== undefined || q.blank !== undefined;
  // Which of several quantities it is stands in another argument: it must be within the bounds of one of them.
  if (q.follows) return Object.values(q.follows.as).some((as) => numberAllowed(as, cell));
  if (typeof cell !== "number" || !Number.isFinite(cell)) return false;
  const { min = -Infinity, above = -Infinity, max = Infinity, below = Infinity } = q;
  return cell >= min && cell > above && cell <= max && cell < below && (!q.whole || Number.isInteger(cell));
}

function choiceAllowed(c: Choice, cell: Cell): boolean {
  if (blank(cell)) return c.default !== undefined || c.blank !== undefined;
  const words = c.values.map(({ value }) => `${value}`.toUpperCase());
  return words.includes(`${cell}`.trim().toUpperCase());
}

function tableAllowed(t: Table, argument: Argument): boolean {
  if (t.kinds) return Object.values(t.kinds.tables).some((kind) => tableAllowed(kind, argument));
  const given = Array.isArray(argument)
    ? (argument as readonly (readonly Cell[])[])
    : blank(argument as Cell)
      ? []
      : [[argument as Cell]];
  const last = given.findLastIndex((row) => !row.every(blank));
  const rows = given.slice(0, last + 1);
  const columns = Object.values(t.columns);
  if (rows.length === 0) return t.optional === true || t.minRows === 0;
  return (
    rows.length >= t.minRows &&
    rows.length <= (t.maxRows ?? 10_000) &&
    rows.every(
      (row) =>
        row.length === columns.length &&
        columns.every((column, i) =>
          column.kind === "number" ? numberAllowed(column, row[i]) : choiceAllowed(column, row[i]),
        ),
    )
  );
}

/** The first cell of an argument as choices are compared. */
function wordOf(argument: Argument, { default: fallback }: Choice): string {
  const cell = Array.isArray(argument) ? (argument as readonly (readonly Cell[])[])[0]?.[0] : (argument as Cell);
  return String(blank(cell) ? fallback : cell)
    .trim()
    .toUpperCase();
}

const empty = (argument: Argument): boolean =>
  Array.isArray(argument)
    ? (argument as readonly (readonly Argument[])[]).every((row) => row.every(empty))
    : argument === 0 || blank(argument as Cell);

/** Whether a call may hold this argument beside its others: where a choice leaves it out, nothing unless it is ignored. */
export function isAllowedIn(
  parameters: readonly { readonly name: string; readonly parameter: Parameter }[],
  args: readonly Argument[],
  at: number,
): boolean {
  const { parameter } = parameters[at]!;
  const { varies } = parameter;
  const by = parameters.findIndex(({ name }) => name === varies?.argument);
  const choice = parameters[by]?.parameter;
  if (!varies || choice?.kind !== "choice") return isAllowed(parameter, args[at]);
  const word = wordOf(args[by], choice);
  const value = choice.values.find((one) => String(one.value).toUpperCase() === word)?.value;
  if (value === undefined) return isAllowed(parameter, args[at]);
  const own = varies.as[String(value)];
  return own ? isAllowed(own, args[at]) : varies.ignored !== undefined || empty(args[at]);
}

function isAllowed(parameter: Parameter, argument: Argument): boolean {
  if (parameter.kind === "table") return tableAllowed(parameter, argument);
  let cell: Cell;
  if (Array.isArray(argument)) {
    const rows = argument as readonly (readonly Cell[])[];
    if (rows.length !== 1 || rows[0]!.length !== 1) return false;
    cell = rows[0]![0];
  } else cell = argument as Cell;
  switch (parameter.kind) {
    case "number":
      return numberAllowed(parameter, cell);
    case "choice":
      return choiceAllowed(parameter, cell);
    case "text":
      return !blank(cell);
  }
}

/** Numbers that occur in engineering, however odd: beyond these sizes a result may leave what a number can hold. */
export function isOfThisWorld(argument: Argument): boolean {
  if (Array.isArray(argument))
    return (argument as readonly (readonly Cell[])[]).every((row) => row.every(isOfThisWorld));
  return typeof argument !== "number" || argument === 0 || (Math.abs(argument) >= 1e-9 && Math.abs(argument) <= 1e15);
}
