import {
  allowedText,
  blankText,
  format,
  type Choice,
  type Columns,
  type Parameter,
  type Table,
} from "../src/core/index.ts";

type Column = Columns[string];

const plain = (symbol: string): string => symbol.replace(/_/g, "");

function rangeText(column: Column): string {
  if (column.kind === "choice") return `one of ${column.values.map(({ value }) => value).join(", ")}`;
  return column.unit === "–" ? "plain number" : column.unit;
}

/** Choices beyond so many are named by a few only: a host cuts or refuses long descriptions, and shows the whole list itself. */
const mostListed = 12;

function listed({ values }: Choice): string {
  if (values.length <= mostListed) return values.map(({ value, text }) => `${value} (${text})`).join(", ");
  return `${values
    .slice(0, mostListed)
    .map(({ value }) => value)
    .join(", ")} and ${values.length - mostListed} more, as the list of choices shows`;
}

/** One of the tables that a range may be, in a few words: a host cuts long descriptions. */
function kindText([name, { columns }]: readonly [string, Table]): string {
  const all = Object.values(columns).map(
    (column) => `${plain(column.symbol)}${column.kind === "number" && column.unit !== "–" ? ` ${column.unit}` : ""}`,
  );
  return `${name}: ${all.join(", ")}`;
}

/** What a person reads about an argument while typing: meaning, symbol and unit, allowed range, default. */
export function parameterText(parameter: Parameter): string {
  const symbol = plain(parameter.symbol);
  switch (parameter.kind) {
    case "number": {
      const allowed = allowedText(parameter);
      return [
        parameter.text,
        parameter.unit === "–" ? `${symbol}, plain number` : `${symbol} in ${parameter.unit}`,
        ...(parameter.whole ? ["whole numbers"] : []),
        ...(allowed ? [`allowed: ${allowed}`] : []),
        ...(parameter.default === undefined ? [] : [`default: ${format(parameter.default)}`]),
        ...(parameter.blank === undefined ? [] : [blankText(parameter)]),
      ].join("; ");
    }
    case "choice": {
      return [
        parameter.text,
        `${symbol}, one of ${listed(parameter)}`,
        ...(parameter.default === undefined ? [] : [`default: ${parameter.default}`]),
        ...(parameter.blank === undefined ? [] : [blankText(parameter)]),
      ].join("; ");
    }
    case "table": {
      if (parameter.kinds) return [parameter.text, ...Object.entries(parameter.kinds.tables).map(kindText)].join("; ");
      const columns = Object.values(parameter.columns)
        .map((column) => `${plain(column.symbol)} (${column.text}; ${rangeText(column)})`)
        .join(", ");
      return [
        parameter.text,
        `a range with the columns ${columns}`,
        ...(parameter.optional && parameter.blank === undefined ? ["may be left out"] : []),
        ...(parameter.blank === undefined ? [] : [blankText(parameter)]),
      ].join("; ");
    }
    case "text":
      return parameter.text;
  }
}
