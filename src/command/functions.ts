/** `npm run -s functions`: every worksheet function with its signature, units, source and basis. */
import { parameterText, worksheetFunctions, type FunctionParameter, type WorksheetFunction } from "../../functions/index.ts";
import { basisText, families, sources } from "../core/index.ts";
import { endWithReader } from "./output.ts";

endWithReader();

function unitOf({ parameter }: FunctionParameter): string {
  switch (parameter.kind) {
    case "number": return parameter.unit;
    case "choice": return parameter.values.map(({ value }) => value).join("|");
    case "table": return `range: ${Object.values(parameter.columns).map((c) => `${c.symbol.replace(/_/g, "")} ${c.kind === "number" ? c.unit : c.values.map(({ value }) => value).join("|")}`).join(", ")}`;
    case "text": return "text";
  }
}

function argument(p: FunctionParameter): string {
  const text = `${p.name}${p.repeating ? " …" : ""} ‹${unitOf(p)}›`;
  return p.optional ? `[${text}]` : text;
}

function sourceOf({ formula }: WorksheetFunction): { readonly source: string; readonly clause?: string; readonly basis: string; readonly readIn?: string } | undefined {
  if (!formula) return undefined;
  const { key, clause, basis, readIn } = formula.source;
  return { source: sources[key], ...(clause !== undefined && { clause }), basis: basisText[basis], ...(readIn && { readIn: sources[readIn] }) };
}

if (process.argv.includes("--json")) {
  console.log(JSON.stringify(worksheetFunctions.map((f) => ({
    name: f.name,
    ...(f.formula && { family: families[f.formula.family] }),
    summary: f.summary,
    arguments: f.parameters.map((p) => ({ name: p.name, unit: unitOf(p), optional: p.optional, repeating: p.repeating, text: parameterText(p.parameter) })),
    result: f.formula ? { unit: f.formula.result.unit, text: f.formula.result.text } : { text: f.result },
    ...sourceOf(f),
  })), null, 2));
} else {
  let family = "";
  for (const f of worksheetFunctions) {
    const own = f.formula ? families[f.formula.family] : families.workbook;
    if (own !== family) console.log(`${family ? "\n" : ""}${own}`);
    family = own;
    console.log(`  ${f.name}(${f.parameters.map(argument).join(", ")}) → ${f.formula ? f.formula.result.unit : "text"}`);
    console.log(`      ${f.summary}`);
    const s = sourceOf(f);
    if (s) console.log(`      ${s.source}${s.clause ? ` ${s.clause}.` : ""} Basis: ${s.basis}${s.readIn ? `, read in ${s.readIn}` : ""}`);
  }
  console.log(`\n${worksheetFunctions.length} functions. [in brackets]: may be left out. ‹in angle brackets›: unit, choices or columns.`);
}
