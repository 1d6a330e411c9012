import { cellAt, type Snapshot } from "../../cells/index.ts";
import { columns, inputRoles, plannedSnapshot, type Meaning, type Plan } from "../../sheet/index.ts";
import { rowsById, type Place, type RowById } from "./rowsById.ts";

export type RowChange = "new" | "gone" | "formula" | "verdict" | "unit" | "computed" | "asked" | "label";

/** In what order they are listed. */
const order: readonly RowChange[] = ["unit", "formula", "verdict", "computed", "asked", "new", "gone", "label"];

/** A row or table column that the newer template has otherwise. */
export interface ChangedRow {
  readonly id: string;
  readonly change: RowChange;
  readonly text: string;
  readonly before: string;
  readonly after: string;
  /** To be filled in, or, of a row that is gone, typed. */
  readonly input: boolean;
}

/** How the plan says the unit of an id; undefined for an id that it does not have. */
function placesOf({ cells, meanings }: Plan): (id: string) => Place | undefined {
  const units = new Set(cells.filter(({ role }) => role === "unit").map(({ row }) => row));
  const heads = cells.filter(({ role }) => role === "tableUnit");
  const place = ({ at }: Meaning): Place => {
    if (at.rows === 1 && at.column === columns.value && units.has(at.row)) return "row";
    const below = heads.some(({ row, column }) => column === at.column && row < at.row && row >= at.row - 8);
    return below ? "column" : "field";
  };
  const of = new Map(meanings.map((meaning) => [meaning.id, place(meaning)]));
  return (id) => of.get(id);
}

function changesIn(was: RowById, now: RowById, isInput: boolean, namesRows: boolean): readonly RowChange[] {
  if (was.unit !== now.unit) return ["unit"];
  if (was.formula === "" && now.formula !== "") return was.holds ? ["computed"] : ["formula"];
  if (isInput && was.formula === "") return was.text === now.text ? [] : ["label"];
  if (was.formula !== "" && now.formula === "" && isInput) return [];
  // What names other rows changes with their words, which are listed there.
  if (was.formula !== now.formula && !namesRows) return ["formula"];
  if (was.verdict !== now.verdict) return ["verdict"];
  return was.text === now.text ? [] : ["label"];
}

/** What a template puts on a sheet otherwise than the sheet has it, row by row, by the sheet's own names. */
export function changedRows(snapshot: Snapshot, plan: Plan): readonly ChangedRow[] {
  const placeOf = placesOf(plan);
  const names = new Map(plan.meanings.map((meaning) => [meaning.id.toLowerCase(), meaning] as const));
  const known = (id: string): Place | undefined => placeOf(names.get(id)?.id ?? id);
  const before = rowsById(snapshot, known);
  const after = rowsById(plannedSnapshot(plan, "New"), known);
  const inputs = new Set(
    plan.cells.filter(({ role }) => inputRoles.has(role)).map(({ row, column }) => `${row},${column}`),
  );
  const isInput = ({ at }: RowById): boolean => inputs.has(`${at.row},${at.column}`);
  const said = (meaning: Meaning | undefined, id: string, fallback: string): string =>
    meaning ? `${meaning.item} ${meaning.description}`.trim() : fallback || id;
  const out: ChangedRow[] = [];
  for (const [id, now] of after) {
    const was = before.get(id);
    const row = { id: names.get(id)?.id ?? id, text: said(names.get(id), id, now.text), input: isInput(now) };
    if (!was) {
      out.push({ ...row, change: "new", before: "", after: now.formula });
      continue;
    }
    for (const change of changesIn(was, now, row.input, names.get(id)?.namesRows === true))
      out.push({ ...row, change, ...sides(change, was, now) });
  }
  for (const [id, was] of before)
    if (!after.has(id))
      out.push({
        id,
        text: was.text || id,
        change: "gone",
        input: isTyped(was),
        before: valueOf(snapshot, was),
        after: "",
      });
  return out.sort((a, b) => order.indexOf(a.change) - order.indexOf(b.change));
}

function sides(change: RowChange, was: RowById, now: RowById): Pick<ChangedRow, "before" | "after"> {
  if (change === "unit") return { before: was.unit, after: now.unit };
  if (change === "label") return { before: was.text, after: now.text };
  if (change === "verdict") return { before: was.verdict, after: now.verdict };
  return { before: was.formula, after: now.formula };
}

/** Numbers of rows stand in the first column; nobody types them. */
const isTyped = ({ at, formula, holds }: RowById): boolean => at.column !== columns.item && formula === "" && holds;

const valueOf = (snapshot: Snapshot, { at }: RowById): string => {
  const { text, value } = cellAt(snapshot, at.row, at.column);
  return text || String(value ?? "");
};
