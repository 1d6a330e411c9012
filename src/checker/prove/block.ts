import { a1, type Address, type Area, areaA1 } from "../../cells/index.ts";
import {
  basisText,
  choicesGiven,
  formulaIn,
  parametersFor,
  sourceFor,
  type Argument,
  type Cell,
  type Parameter,
} from "../../core/index.ts";
import { halfLastDigit } from "../../published/index.ts";
import { plainSymbol } from "../../typeset/index.ts";
import type { SheetWriter } from "../writer.ts";
import { columns, inputsBeside } from "./columns.ts";
import type { Entry, Proof } from "./entries.ts";
import { fail } from "./words.ts";

type Range = readonly (readonly Cell[])[];
/** The cells of an argument that is a range, be it of one cell; undefined for any other. */
function rangeOf(argument: Argument, { kind }: Parameter): Range | undefined {
  if (Array.isArray(argument)) return argument as Range;
  return kind === "table" && argument !== undefined && argument !== null ? [[argument as Cell]] : undefined;
}
const unitOf = (p: Parameter): string => (p.kind === "number" ? p.unit : "–");
/** As judge() allows it: a value on the edge must not fail by the last bit of the subtraction. A power, since programs rewrite 1E-9. */
const edge = "(1+10^-9)";
/** Programs differ in the last bits of the same calculation. */
const sameResult = "10^-9";

/** Decimals of a number as printed, `further` more; General for powers of ten. */
function decimals(printed: string, further = 0): string | undefined {
  if (/e/i.test(printed)) return undefined;
  const n = (printed.split(".")[1]?.length ?? 0) + further;
  return n === 0 ? "0" : `0.${"0".repeat(n)}`;
}

function verdict({ rule, traced }: Entry, row: number): string {
  const cell = (column: number): string => a1({ row, column });
  const [live, compared, difference, tolerance] = [
    cell(columns.live),
    cell(columns.compared),
    cell(columns.difference),
    cell(columns.tolerance),
  ];
  // #VALUE! is what a function gives for an input it refuses; #NAME? would mean that it is not there.
  if (rule === "refuses") return `=IF(IFERROR(ERROR.TYPE(${live}),0)=3,"REFUSED","${fail}")`;
  const [within, beyond] = rule === "differs" ? [fail, "DIFFERS"] : [rule === "agrees" ? "PASS" : "BY TRACE", fail];
  const judged = `IF(ABS(${difference})<=${tolerance}*${edge},"${within}","${beyond}")`;
  // No cell shows a step: what is computed here counts by the function's own result, which must be the one the panel had with it.
  const panel = cell(columns.panel);
  const numbers = [live, difference, compared, ...(traced ? [panel] : [])].map((of) => `ISNUMBER(${of})`);
  return `=IF(AND(${numbers.join(",")}),${
    traced ? `IF(ABS(${live}-${panel})<=${sameResult}*ABS(${panel}),${judged},"${fail}")` : judged
  },"${fail}")`;
}

/** The value's own row; `args` are its arguments as formulas write them. */
function valueRow(
  w: SheetWriter,
  row: number,
  no: string,
  name: string,
  unit: string,
  entry: Entry,
  args: readonly string[],
): void {
  w.put(row, columns.no, "item", no);
  w.put(row, columns.what, "description", entry.what);
  w.put(row, columns.basis, "label", entry.basis);
  w.formula(row, columns.live, "value", `=${name}(${args.join(",")})`, "General");
  const cell = (column: number): string => a1({ row, column });
  const { printed } = entry;
  if (printed) {
    w.put(row, columns.printed, "bound", printed.text);
    w.put(row, columns.unit, "unit", printed.unit);
    w.put(row, columns.number, "value", printed.number, decimals(printed.text));
    if (entry.traced !== undefined) {
      w.put(row, columns.panel, "bound", entry.traced.result, "General");
      w.put(row, columns.compared, "bound", entry.traced.step, decimals(printed.text, 3));
    } else {
      if (printed.times !== 1) w.put(row, columns.times, "bound", printed.times, "General");
      if (printed.plus !== 0) w.put(row, columns.plus, "bound", printed.plus, "General");
      w.formula(
        row,
        columns.compared,
        "value",
        `=${cell(columns.live)}${printed.times === 1 ? "" : `*${cell(columns.times)}`}${
          printed.plus === 0 ? "" : `+${cell(columns.plus)}`
        }`,
        decimals(printed.text, 3),
      );
    }
    w.formula(
      row,
      columns.difference,
      "value",
      `=${cell(columns.compared)}-${cell(columns.number)}`,
      decimals(printed.text, 3),
    );
    w.put(row, columns.tolerance, "bound", printed.tolerance, "General");
  } else {
    w.put(row, columns.printed, "bound", "refusal");
  }
  w.put(row, columns.liveUnit, "unit", unit);
  w.formula(row, columns.verdict, "verdict", verdict(entry, row));
}

/** A range as a block of cells with its heads; gives the cells the formulas read. */
function rangeBlock(
  w: SheetWriter,
  row: number,
  of: string,
  p: Parameter,
  rows: Range,
): { readonly area: Area; readonly next: number } {
  const all = p.kind === "table" ? Object.values(p.columns) : [];
  w.sentence(row, "subtitle", `${of}: ${plainSymbol(p.symbol)}, ${p.text}`, columns.what, columns.what + 2);
  const from = columns.what + 3;
  all.forEach((column, i) => {
    w.put(row, from + i, "tableHeading", column.text);
    w.put(row + 1, from + i, "tableSymbol", plainSymbol(column.symbol));
    w.put(row + 2, from + i, "tableUnit", unitOf(column));
  });
  rows.forEach((cells, r) =>
    cells.forEach((cell, i) =>
      w.put(
        row + 3 + r,
        from + i,
        typeof cell === "number" ? "value" : "symbol",
        cell ?? undefined,
        typeof cell === "number" ? "General" : undefined,
      ),
    ),
  );
  return {
    area: { row: row + 3, column: from, rows: rows.length, columns: rows[0]?.length ?? 1 },
    next: row + 3 + rows.length,
  };
}

function inputHeads(w: SheetWriter, row: number, parameters: readonly Parameter[]): void {
  parameters.forEach((p, i) => {
    w.put(row, columns.inputs + i, "tableHeading", p.text);
    w.put(row + 1, columns.inputs + i, "tableSymbol", plainSymbol(p.symbol));
    w.put(row + 2, columns.inputs + i, "tableUnit", unitOf(p));
  });
}

/** What a checker should know of a check besides its numbers. */
function remarks({ case: c, entries }: Proof): string {
  const wider = entries.flatMap(({ printed }) =>
    printed && printed.tolerance > halfLastDigit(printed.text) * (1 + 1e-9) ? [printed] : [],
  );
  const because = [...new Set([c.because, ...c.rows.map((row) => row.because)].filter((b) => b !== undefined))];
  const foreign = [
    ...new Set(
      entries.flatMap(({ asPrinted }) =>
        asPrinted.flatMap((text, i) => (text === undefined ? [] : [`${i + 1}: ${text}`])),
      ),
    ),
  ];
  return [
    wider.length === 0
      ? "Tolerance: half a unit of the last printed digit."
      : `Tolerance wider than half a unit of the last printed digit, because ${because.join("; ")}.`,
    ...(c.mustDiffer ? ["The source is superseded: the function must not give its values."] : []),
    ...(foreign.length > 0 ? [`Inputs in the source's own unit, by argument: ${foreign.join("; ")}.`] : []),
    ...(c.note === undefined ? [] : [`Note: ${c.note}${c.note.endsWith(".") ? "" : "."}`]),
  ].join(" ");
}

export interface Placed {
  readonly next: number;
  /** Where each entry stands. */
  readonly rows: readonly {
    readonly no: string;
    readonly entry: Entry;
    readonly row: number;
    readonly inputs: readonly (Address | Area)[];
  }[];
}

/** A check from a row on: source and remarks, heads of the inputs, a row a value, further inputs and ranges beneath. */
export function putProof(w: SheetWriter, start: number, number: number, proof: Proof): Placed {
  const { case: c, formula, entries } = proof;
  const firstArguments = entries[0]?.args ?? [];
  const f = formulaIn(formula, firstArguments);
  const name = `KERN.${f.id}`;
  w.put(start, columns.no, "block", String(number));
  w.sentence(
    start,
    "block",
    `${c.id} · ${name}${c.step === undefined ? "" : `, step ${plainSymbol(f.steps[c.step]?.symbol ?? c.step)}`} · ${f.summary}`,
    columns.what,
    w.widths.length - 1,
  );
  const parameters = parametersFor(f, firstArguments);
  const source = sourceFor(formula, choicesGiven(f, firstArguments));
  const scalars = parameters
    .map((p, i) => ({ p, i }))
    .filter(({ p, i }) => p.kind !== "table" && entries.some(({ args }) => args[i] !== undefined && args[i] !== null));
  const bands = Array.from({ length: Math.ceil(scalars.length / inputsBeside) }, (_, b) =>
    scalars.slice(b * inputsBeside, (b + 1) * inputsBeside),
  );
  w.sentence(
    start + 1,
    "source",
    `Source: ${c.source}${c.source.endsWith(".") ? "" : ";"} ${c.where}.`,
    columns.what,
    columns.verdict,
  );
  w.sentence(
    start + 2,
    "source",
    "The function's own rule: " +
      `${source.clause === undefined ? source.key : `${source.key}, ${source.clause}`}; basis: ` +
      `${basisText[source.basis]}.`,
    columns.what,
    columns.verdict,
  );
  w.sentence(start + 3, "source", remarks(proof), columns.what, columns.verdict);
  inputHeads(
    w,
    start + 1,
    (bands[0] ?? []).map(({ p }) => p),
  );
  const first = start + 4;
  const bandStart = (b: number): number => first + entries.length * b + 3 * b;
  bands.slice(1).forEach((band, b) => {
    w.put(bandStart(b + 1) - 3, columns.what, "note", "further inputs of the same values");
    inputHeads(
      w,
      bandStart(b + 1) - 3,
      band.map(({ p }) => p),
    );
  });
  let next = bandStart(Math.max(1, bands.length)) - 3;
  const known = new Map<string, Area>();
  const rows = entries.map((entry, e) => {
    const no = `${number}.${e + 1}`;
    const row = first + e;
    const inputs = entry.args.map((argument, i): Address | Area | undefined => {
      const at = scalars.findIndex((scalar) => scalar.i === i);
      const range = rangeOf(argument, parameters[i]!);
      if (range) {
        const key = `${i} ${JSON.stringify(range)}`;
        const there = known.get(key);
        if (there) return there;
        const block = rangeBlock(w, next, no, parameters[i]!, range);
        next = block.next;
        known.set(key, block.area);
        return block.area;
      }
      if (at < 0) return undefined;
      const band = Math.floor(at / inputsBeside);
      const cell = { row: bandStart(band) + e, column: columns.inputs + (at % inputsBeside) };
      if (band > 0 && at % inputsBeside === 0) w.put(cell.row, columns.no, "item", no);
      w.put(
        cell.row,
        cell.column,
        typeof argument === "number" ? "value" : "symbol",
        (argument as Cell) ?? undefined,
        typeof argument === "number" ? "General" : undefined,
      );
      return cell;
    });
    valueRow(
      w,
      row,
      no,
      name,
      f.result.unit,
      entry,
      inputs.map((input) => (input === undefined ? "" : "rows" in input ? areaA1(input, false) : a1(input))),
    );
    return { no, entry, row, inputs: inputs.filter((input) => input !== undefined) };
  });
  return { next: next + 1, rows };
}
