import {
  InputError,
  outside,
  q,
  text,
  valueWarnings,
  type Argument,
  type Cell,
  type Quantity,
} from "../src/core/index.ts";

const params = {
  quantity: text({
    key: "quantityKey",
    symbol: "quantity",
    text: 'the quantity the input cells hold, as text: "span"',
    example: '"span"',
  }),
  values: text({
    key: "inputValues",
    symbol: "values",
    text: "the input cells, one range after another",
    example: "A1:A3",
  }),
} as const;

const quantities: Readonly<Record<string, Quantity>> = q;

function quantityOf(argument: Argument): Quantity {
  const cell = Array.isArray(argument) ? (argument as readonly (readonly Cell[])[])[0]?.[0] : (argument as Cell);
  const key = String(cell ?? "").trim();
  const quantity = Object.hasOwn(quantities, key) ? quantities[key] : undefined;
  if (quantity) return quantity;
  throw new InputError(
    "quantity",
    key === ""
      ? "quantity (the quantity the cells hold) is missing; a text is needed, such as “span”"
      : `quantity = “${key.length > 60 ? `${key.slice(0, 59)}…` : key}” is no quantity of the functions; ` +
          "give its key as text, such as “span”",
  );
}

/** So many of a column are named; one in the wrong unit is soon seen. */
const listed = 5;

/** The same value in several rows is said once. */
function rowsNamed(rows: readonly number[]): string {
  if (rows.length === 1) return ` in row ${rows[0]!}`;
  const more = rows.length - listed;
  return ` in rows ${rows.slice(0, listed).join(", ")}${more > 0 ? ` and ${more} more` : ""}`;
}

/**
 * What is unusual about inputs of a sheet: values outside the quantity's everyday range, with the unit they were
 * perhaps typed in. Empty cells, texts and refused values are left to the input's status.
 */
export const inputWarningsFunction = {
  id: "INPUT_WARNINGS",
  summary:
    "What should be known about input cells: values outside the everyday range of their quantity, with " +
    "the unit they may have been typed in; empty where there is nothing",
  params,
  repeating: "values",
  compute: ([wanted, ...values]: readonly Argument[]): string => {
    const quantity = quantityOf(wanted);
    if (values.length === 0) throw new InputError("values", "values (the input cells) are missing");
    const cells = values.flatMap((value) =>
      Array.isArray(value) ? (value as readonly (readonly Cell[])[]).flat() : [value as Cell],
    );
    const rowsOf = new Map<number, number[]>();
    cells.forEach((cell, i) => {
      if (typeof cell === "number" && Number.isFinite(cell) && outside(quantity, cell) === undefined)
        rowsOf.set(cell, [...(rowsOf.get(cell) ?? []), i + 1]);
    });
    const all = [...rowsOf].flatMap(([value, rows]) =>
      valueWarnings(quantity, value, cells.length > 1 ? rowsNamed(rows) : ""),
    );
    const more = all.length - listed;
    return [...all.slice(0, listed), ...(more > 0 ? [`and ${more} more`] : [])].join("; ");
  },
} as const;
