/** `npm run -s functions`: every worksheet function with its signature, units, source and basis. */
import {
  parameterText,
  worksheetFunctions,
  type FunctionParameter,
  type WorksheetFunction,
} from "../../functions/index.ts";
import { basisText, families, sources, type Declaration } from "../core/index.ts";
import { guardOutput } from "./output.ts";

guardOutput();

function unitOf({ parameter }: Pick<FunctionParameter, "parameter">): string {
  switch (parameter.kind) {
    case "number":
      return parameter.unit;
    case "choice":
      return parameter.values.map(({ value }) => value).join("|");
    case "table":
      if (parameter.kinds)
        return Object.values(parameter.kinds.tables)
          .map((kind) => unitOf({ parameter: kind }))
          .join(" or ");
      return `range: ${Object.values(parameter.columns)
        .map(
          (c) =>
            `${c.symbol.replace(/_/g, "")} ${c.kind === "number" ? c.unit : c.values.map(({ value }) => value).join("|")}`,
        )
        .join(", ")}`;
    case "text":
      return "text";
  }
}

function argument(p: FunctionParameter): string {
  const text = `${p.name}${p.repeating ? " …" : ""} ‹${unitOf(p)}›`;
  return p.optional ? `[${text}]` : text;
}

const declarationOf = ({ formula, spill }: WorksheetFunction): Declaration | undefined => formula ?? spill;

function resultOf(f: WorksheetFunction): { readonly unit: string; readonly text: string } | { readonly text: string } {
  if (f.formula) return { unit: f.formula.result.unit, text: f.formula.result.text };
  if (f.spill)
    return {
      unit: `rows: ${Object.values(f.spill.columns)
        .map(({ symbol, unit }) => `${symbol.replace(/_/g, "")} ${unit}`)
        .join(", ")}`,
      text: Object.values(f.spill.columns)
        .map(({ text }) => text)
        .join(", "),
    };
  return { text: f.result };
}

function sourceOf(
  f: WorksheetFunction,
): { readonly source: string; readonly clause?: string; readonly basis: string; readonly readIn?: string } | undefined {
  const of = declarationOf(f);
  if (!of) return undefined;
  const { key, clause, basis, readIn } = of.source;
  return {
    source: sources[key],
    ...(clause !== undefined && { clause }),
    basis: basisText[basis],
    ...(readIn && { readIn: sources[readIn] }),
  };
}

if (process.argv.includes("--json")) {
  console.log(
    JSON.stringify(
      worksheetFunctions.map((f) => ({
        name: f.name,
        ...(declarationOf(f) && { family: families[declarationOf(f)!.family] }),
        summary: f.summary,
        arguments: f.parameters.map((p) => ({
          name: p.name,
          unit: unitOf(p),
          optional: p.optional,
          repeating: p.repeating,
          text: parameterText(p.parameter),
        })),
        result: resultOf(f),
        ...sourceOf(f),
      })),
      null,
      2,
    ),
  );
} else {
  let family = "";
  for (const f of worksheetFunctions) {
    const of = declarationOf(f);
    const own = of ? families[of.family] : families.workbook;
    if (own !== family) console.log(`${family ? "\n" : ""}${own}`);
    family = own;
    console.log(
      `  ${f.name}(${f.parameters.map(argument).join(", ")}) → ${of ? (resultOf(f) as { unit: string }).unit : "text"}`,
    );
    console.log(`      ${f.summary}`);
    const s = sourceOf(f);
    if (s)
      console.log(
        `      ${s.source}${s.clause ? ` ${s.clause}.` : ""} Basis: ${s.basis}${s.readIn ? `, read in ${s.readIn}` : ""}`,
      );
  }
  console.log(
    `\n${worksheetFunctions.length} functions. [in brackets]: may be left out. ‹in angle brackets›: unit, choices or columns.`,
  );
}
