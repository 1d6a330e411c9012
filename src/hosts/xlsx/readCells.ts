import { a1, filled, holdsUnkept, withoutUnkept, type Address, type Area } from "../../cells/index.ts";
import type { Letters } from "../../sheet/index.ts";
import type { BookCell } from "../workbook/workbook.ts";
import { storableErrors } from "./cells.ts";
import { readAddress, readArea } from "./address.ts";
import { unkeptCharacters, type NotUnderstood } from "./notUnderstood.ts";
import type { ReadLook } from "./readStyles.ts";
import { all, at, child, type Element } from "./readXml.ts";
import { CannotOpen, countText, faultOfFormula, refuseTooMany, type Limits } from "./refusal.ts";
import { readText } from "./sharedTexts.ts";
import { typedFormula } from "./storedFormula.ts";

/** A text of the list, its subscripts, and whether its letters look differently within it in other ways. */
export interface SharedText {
  readonly text: string;
  readonly lowered: readonly Letters[];
  readonly mixed: boolean;
}

/** How the letters of a run stand: as the others, lowered or raised. */
const standing = (run: Element): string => child(child(run, "rPr"), "vertAlign")?.attributes["val"] ?? "baseline";

const isLowered = (run: Element): boolean => standing(run) === "subscript";

/** How the letters of a run look, but for whether they are lowered; subscripts have a size of their own. */
function lookOfRun(run: Element, sized: boolean): string {
  const said = (child(run, "rPr")?.children ?? []).filter(
    ({ name }) => name !== "vertAlign" && (sized || name !== "sz"),
  );
  return JSON.stringify(said.map(({ name, attributes }) => [name, attributes]));
}

/** Whether something of the letters gets lost: of all that differs within a text, only what is lowered is kept. */
function isMixed(runs: readonly Element[]): boolean {
  const looks = (some: readonly Element[], sized: boolean) => new Set(some.map((run) => lookOfRun(run, sized))).size;
  const others = runs.filter((run) => !isLowered(run));
  return looks(runs, false) > 1 || looks(others, true) > 1 || others.some((run) => standing(run) !== "baseline");
}

function loweredIn(runs: readonly Element[]): readonly Letters[] {
  const out: Letters[] = [];
  let from = 0;
  for (const run of runs) {
    const to = from + withoutUnkept(readText(child(run, "t")?.text ?? "")).length;
    if (isLowered(run) && to > from) out.push([from, to]);
    from = to;
  }
  return out;
}

function textIn(si: Element): SharedText {
  const runs = all(si, "r");
  const text = child(si, "t")?.text ?? runs.map((run) => child(run, "t")?.text ?? "").join("");
  return { text: readText(text), lowered: loweredIn(runs), mixed: isMixed(runs) };
}

export function readSharedTexts(root: Element): readonly SharedText[] {
  return all(root, "si").map(textIn);
}

interface Where {
  readonly sheet: string;
  readonly looks: readonly ReadLook[];
  readonly texts: readonly SharedText[];
  readonly notUnderstood: NotUnderstood;
  readonly limits: Limits;
}

/** An error as files keep it: others, which some programs have, become one that all have, or a text where no formula gives them. */
function readError(c: Element, code: string, { sheet, notUnderstood }: Where): Pick<BookCell, "value" | "error"> {
  if (storableErrors.has(code)) return { value: null, error: code };
  notUnderstood.add("errors that only some programs have: shown as #VALUE!, or as a text", `“${sheet}”`);
  return child(c, "f") ? { value: null, error: "#VALUE!" } : { value: code };
}

type Content = Pick<BookCell, "value" | "error" | "lowered">;

/** A text as a cell holds it; what of its letters is not kept is told. */
function textContent({ text, lowered, mixed }: SharedText, { sheet, notUnderstood }: Where): Content {
  if (mixed) notUnderstood.add("letters of different looks within a cell: the text is kept in one look", `“${sheet}”`);
  return { value: text, ...(lowered.length > 0 && { lowered }) };
}

function valueOf(c: Element, cell: string, where: Where): Content {
  const { sheet, texts, notUnderstood } = where;
  const type = c.attributes["t"] ?? "n";
  if (type === "inlineStr") {
    const is = child(c, "is");
    return is ? textContent(textIn(is), where) : { value: null };
  }
  const v = child(c, "v")?.text;
  if (v === undefined || (v === "" && type !== "str")) return { value: null };
  switch (type) {
    case "s": {
      const found = texts[Number(v)];
      if (!found) throw new CannotOpen(`it is damaged: ${cell} of “${sheet}” names a text that is not there`);
      return textContent(found, where);
    }
    case "str":
      return { value: readText(v) };
    case "b":
      return { value: v === "1" || v === "true" };
    case "e":
      return readError(c, v, where);
    case "n": {
      const value = Number(v);
      if (!Number.isFinite(value))
        throw new CannotOpen(`it is damaged: ${cell} of “${sheet}” holds “${v}”, which is no number`);
      return { value };
    }
    default:
      notUnderstood.add(`cells of the kind “${type}”: kept as text`, `“${sheet}”`);
      return { value: v };
  }
}

/** Formulas written once for several cells, by number: the formula and the cell where it is written. */
type Shared = Map<string, { readonly formula: string; readonly from: Address }>;

interface ReadFormula {
  readonly formula?: string;
  readonly fills?: Area;
}

function formulaOf(
  f: Element | undefined,
  cell: Address,
  shared: Shared,
  { sheet, notUnderstood }: Where,
): ReadFormula {
  if (!f) return {};
  const { t, si, ref } = f.attributes;
  if (t === "dataTable") {
    notUnderstood.add("tables of what-if values: kept as values", `“${sheet}”`);
    return {};
  }
  if (t === "shared" && si !== undefined) {
    const first = shared.get(si);
    if (f.text === "")
      return first
        ? { formula: filled(first.formula, cell.row - first.from.row, cell.column - first.from.column) }
        : {};
    const formula = typedFormula(f.text);
    shared.set(si, { formula, from: cell });
    return { formula };
  }
  if (f.text === "") return {};
  if (t === "array") return { formula: typedFormula(f.text), ...(ref !== undefined && { fills: readArea(ref) }) };
  return { formula: typedFormula(f.text) };
}

/** Refuses what no program can have written, and what takes for ever to compute. */
function refuseTooLong(cell: string, { sheet, limits }: Where, value: BookCell["value"], formula = ""): void {
  const refuse = (what: string): never => {
    throw new CannotOpen(`${cell} of its sheet “${sheet}” holds ${what} are opened`);
  };
  if (typeof value === "string" && value.length > limits.text)
    refuse(`a text of ${countText(value.length)} characters; up to ${countText(limits.text)}`);
  const fault = faultOfFormula(formula, limits);
  if (fault !== undefined) refuse(fault);
}

/** The value with its text free of characters that no file keeps: texts can write any character as `_x0000_`. */
function kept<V extends Pick<BookCell, "value">>(content: V, { sheet, notUnderstood }: Where): V {
  if (typeof content.value !== "string" || !holdsUnkept(content.value)) return content;
  notUnderstood.add(unkeptCharacters, `“${sheet}”`);
  return { ...content, value: withoutUnkept(content.value) };
}

/** Every cell of a sheet that holds something or has a look of its own. */
export function readSheetCells(sheet: Element, where: Where): readonly BookCell[] {
  const { limits } = where;
  const shared: Shared = new Map();
  const out: BookCell[] = [];
  let row = -1;
  let [formulas, filling] = [0, 0];
  for (const line of all(at(sheet, "sheetData"), "row")) {
    row = line.attributes["r"] === undefined ? row + 1 : Number(line.attributes["r"]) - 1;
    if (!Number.isInteger(row) || row < 0)
      throw new CannotOpen(`it is damaged: “${where.sheet}” has a row “${line.attributes["r"]}”`);
    let column = -1;
    for (const c of all(line, "c")) {
      const { r, s = "0" } = c.attributes;
      column = r === undefined ? column + 1 : readAddress(r).column;
      const place: Address = r === undefined ? { row, column } : readAddress(r);
      const { look, unlocked, lost = [] } = where.looks[Number(s)] ?? { look: {}, unlocked: false };
      const value = kept(valueOf(c, a1(place), where), where);
      const { formula, fills } = formulaOf(child(c, "f"), place, shared, where);
      refuseTooLong(a1(place), where, value.value, formula);
      formulas += formula?.length ?? 0;
      if (formulas > limits.formulas)
        throw new CannotOpen(
          `the formulas of its sheet “${where.sheet}” have more than ${countText(limits.formulas)} characters ` +
            "together; no more are opened",
        );
      if (fills && fills.rows * fills.columns > 1) filling++;
      refuseTooMany(filling, limits.filling, "formulas that fill several cells", where.sheet);
      const holdsSomething = formula !== undefined || value.value !== null || value.error !== undefined;
      const beyond = place.row >= limits.rows || place.column >= limits.columns;
      // Looks of empty cells far out say nothing.
      if (beyond && !holdsSomething) continue;
      if (beyond)
        throw new CannotOpen(
          `its sheet “${where.sheet}” holds something in ${a1(place)}; sheets of up to ${countText(limits.rows)} rows and ` +
            `${limits.columns} columns are opened`,
        );
      for (const what of lost) where.notUnderstood.add(what, `“${where.sheet}”`);
      if (out.length >= limits.cells)
        throw new CannotOpen(
          `its sheet “${where.sheet}” has more than ${countText(limits.cells)} cells; no more are opened`,
        );
      if (!holdsSomething && Object.keys(look).length === 0 && !unlocked) continue;
      out.push({
        ...place,
        ...value,
        ...(formula !== undefined && { formula }),
        ...(fills && fills.rows * fills.columns > 1 && { fills: { rows: fills.rows, columns: fills.columns } }),
        look,
        ...(unlocked && { unlocked: true as const }),
      });
    }
  }
  return out;
}
