/** Evaluates worksheet formulas without a grid on screen: values at full precision, or the error with its message. */
import type { CellContent } from "../hosts/index.ts";
import { guardOutput } from "./output.ts";

guardOutput();

const help = `Evaluates worksheet formulas and prints their values at full precision.

  npm run -s eval -- 'KERN.FRICTION_STRESS(0.3, 0.2, 0.003, "1/m", 1395, 12)'
  npm run -s eval -- 'SUM(1, 2)' '=ROUND(PI(), 3)'      several formulas, a line each
  npm run -s eval < formulas.txt                        one formula a line from standard input

A leading = is allowed. A spilled result is printed as rows, its cells separated by tabs. Warnings go to standard error:
input outside its everyday range or its source's validity. A misspelt function is answered with the nearest ones.

  --json   one JSON object a line: {formula, value | values | error: {code, message}, warnings?: [text]}
  --help   this text

Ends with 0 when every formula gave a value, 1 when any gave an error, 2 when called wrongly.
`;

type Cells = readonly (readonly CellContent[])[];

async function standardInput(): Promise<readonly string[]> {
  process.stdin.setEncoding("utf8");
  let text = "";
  for await (const chunk of process.stdin) text += String(chunk);
  return text.split(/\r?\n/).filter((line) => line.trim() !== "");
}

function asJson(formula: string, cells: Cells, warnings: readonly string[]): string {
  const error = cells.flat().find((cell) => cell.error)?.error;
  if (error) return JSON.stringify({ formula, error });
  const values = cells.map((row) => row.map(({ value }) => value));
  const result = values.length === 1 && values[0]!.length === 1 ? { value: values[0]![0] } : { values };
  return JSON.stringify({ formula, ...result, ...(warnings.length > 0 && { warnings }) });
}

function asText(cells: Cells): string {
  return cells
    .map((row) =>
      row
        .map(({ text, error }) => (error ? [error.code, ...(error.message ? [error.message] : [])].join(" ") : text))
        .join("\t"),
    )
    .join("\n");
}

async function evaluateAll(formulas: readonly string[], json: boolean): Promise<boolean> {
  // Loading the grid takes seconds: what is wrong with a call is said without it.
  const { openGridInNode } = await import("../hosts/index.ts");
  const { evaluated } = await import("./eval/evaluated.ts");
  const host = await openGridInNode();
  try {
    const [sheet] = await host.sheetNames();
    let failed = false;
    for (const formula of formulas) {
      const { cells, warnings } = await evaluated(host, sheet!, formula);
      failed ||= cells.flat().some((cell) => cell.error);
      console.log(json ? asJson(formula, cells, warnings) : asText(cells));
      if (!json) for (const warning of warnings) console.error(`Warning: ${warning}`);
    }
    return !failed;
  } finally {
    host.dispose();
  }
}

function wrongCall(text: string): never {
  console.error(`${text}\nTry --help.`);
  process.exit(2);
}

const words = process.argv.slice(2);
const options = words.filter((word) => word.startsWith("--"));
if (options.includes("--help")) {
  process.stdout.write(help);
  process.exit(0);
}
const unknown = options.find((word) => word !== "--json");
if (unknown) wrongCall(`There is no option ${unknown}.`);
const given = words.filter((word) => !word.startsWith("--"));
if (given.length === 0 && process.stdin.isTTY) wrongCall("No formula given.");
const formulas = given.length > 0 ? given : await standardInput();
if (formulas.length === 0) wrongCall("No formula given.");
const empty = formulas.find((formula) => formula.replace("=", "").trim() === "");
if (empty !== undefined) wrongCall(`“${empty}” is no formula.`);

process.exitCode = (await evaluateAll(formulas, options.includes("--json"))) ? 0 : 1;
