import { allowedWords, plainSymbol, says, type InputSpec, type Saying, type Template } from "../../sheet/index.ts";
import { partedBy } from "../../office/index.ts";
import { wrapped } from "../wrap.ts";

interface Listed extends Saying {
  readonly input: InputSpec;
  /** The dimensions a list runs over; none for a single value. */
  readonly over: readonly string[];
}

/** The inputs of a template in the order of its sheet, whatever its shape. */
function inputsOf(template: Template): readonly Listed[] {
  const found = template.blocks
    .flatMap(({ items }) => items)
    .flatMap((item): readonly Listed[] => {
      if ("table" in item)
        return item.columns.flatMap((column) =>
          column.input ? [{ ...column, input: column.input, over: item.over }] : [],
        );
      return "id" in item && item.input ? [{ ...item, input: item.input, over: [] }] : [];
    });
  return [...new Map(found.map((one) => [one.id, one])).values()];
}

function defaultWords({ default: value, mayBeEmpty, neededWhere, freeText }: InputSpec): string {
  if (value !== undefined) return `default ${value}`;
  if (neededWhere !== undefined) return "needed in some cases, in which the sheet says MISSING";
  return mayBeEmpty || freeText ? "" : "no default: must be given";
}

const choiceLines = ({ choices = [] }: Pick<InputSpec, "choices">): readonly string[] =>
  choices.map(({ value, text }) => `    ${value}: ${text}`);

function linesOf(template: Template, { input, over, ...saying }: Listed): readonly string[] {
  const said = says(saying);
  const symbol = plainSymbol(said.symbol);
  const named = symbol === "–" || symbol === said.id ? said.text : `${said.text}, ${symbol}`;
  const unit = said.unit === "–" || said.unit === "" ? "" : ` [${said.unit}]`;
  const labels = over.map((one) => template.dimensions[one]?.label ?? one);
  const members = labels.join(" and ");
  const marks = labels.map((label, i) => `“${partedBy(labels.length - i)}” between ${label}s`);
  const apart = over.length > 1 ? `, with ${marks.slice(0, -1).join(", ")} and ${marks.at(-1)}` : "";
  const facts = [
    ...(over.length > 0 ? [`a list by ${members}${apart}`] : []),
    ...(input.freeText ? ["text"] : []),
    ...(input.choices ? [] : [allowedWords(input, said)]),
    ...(input.choices && input.mayBeEmpty ? ["may stay empty"] : []),
    defaultWords(input),
  ].filter((fact) => fact !== "");
  return [`${said.id}: ${named}${unit}`, `  ${facts.join("; ")}`, ...choiceLines(input)];
}

/** Every input of a template as `--set` takes it: id, label, unit, allowed range, default, choices. */
export function inputLines(template: Template): readonly string[] {
  const shape = template.shape.flatMap(({ id, text, min, max, choices, default: value }) => [
    `${id}: ${text}`,
    `  ${[...(choices ? [] : [`whole numbers, ${min ?? ""} to ${max ?? ""}`]), `default ${value}`].join("; ")}`,
    ...choiceLines({ ...(choices && { choices }) }),
  ]);
  const ofSource = `Linked to a sheet of ${template.source?.template.id}, whose shape it has.`;
  return [
    ...(template.source ? [ofSource, ""] : ["Inputs that shape the sheet:", ...shape, ""]),
    "Inputs; which of them the sheet asks for depends on its shape:",
    ...inputsOf(template).flatMap((one) => linesOf(template, one)),
  ].flatMap((line) => wrapped(line));
}
