import {
  type Address,
  cellAt,
  isNumberAsText,
  type Moves,
  normalNow,
  normalPlanned,
  rewritten,
  shortened,
} from "../../cells/index.ts";
import { everydayText, format as numberText, isUnusual, version } from "../../core/index.ts";
import { columns, peoplesRoles, plainSymbol, type PlannedCell, type Role } from "../../sheet/index.ts";
import type { CellContent, Looks } from "../../hosts/index.ts";
import type { Recognised } from "../recognise/recognised.ts";
import { members } from "../recognise/members.ts";
import { standing, standsAsPlanned } from "../recognise/standing.ts";
import type { Finding, FindingKind, Grade } from "./finding.ts";
import { formulaChange } from "./formulaChange.ts";
import { formatChange, hidesTexts } from "./numberFormat.ts";

/** What a fixed text is for, by the cell's role. */
const texts: Partial<
  Readonly<Record<Role, { readonly kind: FindingKind; readonly grade: Grade; readonly what: string }>>
> = {
  unit: {
    kind: "unit changed",
    grade: "serious",
    what: "The unit was changed; what is computed from the value was not.",
  },
  tableUnit: {
    kind: "unit changed",
    grade: "serious",
    what: "The unit was changed; what is computed from the values was not.",
  },
  symbol: { kind: "symbol changed", grade: "look", what: "The symbol was changed." },
  tableSymbol: { kind: "symbol changed", grade: "look", what: "The symbol was changed." },
  tableWord: { kind: "symbol changed", grade: "look", what: "The column's heading was changed." },
  tableWordIn: { kind: "symbol changed", grade: "look", what: "The column's heading was changed." },
  caution: { kind: "caution changed", grade: "serious", what: "A caution was changed or taken away." },
  item: { kind: "label changed", grade: "look", what: "The number was changed." },
  wordIn: { kind: "label changed", grade: "look", what: "The label was changed." },
  description: { kind: "label changed", grade: "look", what: "The label was changed." },
  heading: { kind: "label changed", grade: "look", what: "The column's heading was changed." },
  tableHeading: { kind: "label changed", grade: "look", what: "The column's heading was changed." },
  block: { kind: "label changed", grade: "look", what: "The title was changed." },
  subtitle: { kind: "label changed", grade: "look", what: "The title was changed." },
  title: { kind: "label changed", grade: "look", what: "The title was changed." },
};
const otherText = { kind: "text changed", grade: "look", what: "The text was changed." } as const;

/** A value as findings show it. */
export const shown = (value: CellContent["value"] | undefined): string =>
  value === null || value === undefined || value === ""
    ? "empty"
    : typeof value === "number"
      ? numberText(value)
      : String(value);
/** What a cell gives: its error or its value. */
export const shownResult = ({ value, error }: Pick<CellContent, "value" | "error">): string =>
  error?.code ?? shown(value);
const shownCell = (cell: CellContent): string => cell.formula ?? shownResult(cell);

/** The number and title of the table that a planned row is a row of; undefined for other rows. */
export function tableOf({ plan: { cells, meanings } }: Recognised): (row: number) => string | undefined {
  const titles = new Map<string, string>();
  const itemOf = new Map<number, (typeof cells)[number]["value"]>();
  for (const { row, role, value } of cells) if (role === "item" && !itemOf.has(row)) itemOf.set(row, value);
  for (const { row, column, role, value } of cells) {
    if (role !== "subtitle" || column !== columns.description || typeof value !== "string") continue;
    const item = itemOf.get(row);
    if (item !== undefined) titles.set(String(item), value);
  }
  const items = new Map<number, string>();
  for (const { at, item } of meanings)
    if (titles.has(item)) for (let r = 0; r < at.rows; r++) items.set(at.row + r, item);
  return (row) => {
    const item = items.get(row);
    return item === undefined ? undefined : `table ${item}, ${titles.get(item)!}`;
  };
}

type LabelOf = (planned: Address) => string;
const labelsKept = new WeakMap<Recognised, LabelOf>();

/** Number and description of what a planned cell belongs to. */
export function labels(recognised: Recognised): LabelOf {
  const kept = labelsKept.get(recognised) ?? labelsOf(recognised);
  labelsKept.set(recognised, kept);
  return kept;
}

function labelsOf(recognised: Recognised): LabelOf {
  const { cells, meanings, columns: width } = recognised.plan;
  const items = new Map<number, string>();
  const descriptions = new Map<number, string>();
  for (const { row, column, value, role } of cells) {
    if (typeof value !== "string") continue;
    if (column === columns.item && (role === "item" || role === "block")) items.set(row, value);
    if (column === columns.description && role !== "value") descriptions.set(row, value);
  }
  const keyOf = ({ row, column }: Address): number => row * width + column;
  const tables = new Map<number, (typeof meanings)[number]>();
  for (const meaning of meanings)
    if (meaning.at.rows > 1 || !items.get(meaning.at.row))
      for (let r = 0; r < meaning.at.rows; r++)
        tables.set(keyOf({ row: meaning.at.row + r, column: meaning.at.column }), meaning);
  return ({ row, column }) => {
    const meaning = column < width ? tables.get(keyOf({ row, column })) : undefined;
    if (meaning) return `${meaning.item} ${meaning.description}`;
    const [item = "", description = ""] = [items.get(row), descriptions.get(row)];
    const text = `${item} ${shortened(description, 80)}`.trim();
    return column === columns.verdict && text ? `${text}: verdict` : text;
  };
}

/** Cells whose content the sheet says of itself, or that are the user's to fill. */
function exempt({ role, value }: PlannedCell, { plan, head }: Recognised): boolean {
  if (peoplesRoles.has(role) || role === "textInput") return true;
  return (
    (role === "label" &&
      (value === plan.hash ||
        value === `${plan.template.id} ${plan.template.version}` ||
        value === head.functionsVersion)) ||
    (role === "bound" && value === version)
  );
}

/** Compares every planned cell that still stands with what stands there. */
export function cellFindings(recognised: Recognised, looks: Looks): readonly Finding[] {
  const { plan, snapshot, faults } = recognised;
  const moves: Moves = { row: recognised.rowNow, column: recognised.columnNow };
  const asPlanned = standsAsPlanned(recognised);
  const labelOf = labels(recognised);
  const memberOf = members(recognised);
  const inputAt = new Map(recognised.inputCells.map((c) => [`${c.at.row},${c.at.column}`, c] as const));
  const faultAt = new Map(faults.map((f) => [`${f.at.row},${f.at.column}`, f] as const));
  const mayBeEmpty = new Set(
    plan.validations
      .filter((v) => v.allowBlank)
      .flatMap((v) => Array.from({ length: v.rows }, (_, r) => `${v.row + r},${v.column}`)),
  );
  const computed = new Set(
    plan.cells.filter((c) => c.formula !== undefined).map(({ row, column }) => `${row},${column}`),
  );
  const out: Finding[] = [];
  for (const cell of plan.cells) {
    const at = standing(recognised, cell);
    if (!at || exempt(cell, recognised)) continue;
    const { row, column } = at;
    const now = cellAt(snapshot, row, column);
    const add = (kind: FindingKind, grade: Grade, what: string, expected?: string, found?: string): void => {
      const member = memberOf(cell);
      out.push({
        kind,
        grade,
        what,
        at,
        label: labelOf(cell),
        ...(member && { member }),
        ...(expected !== undefined && { expected }),
        ...(found !== undefined && { found }),
      });
    };
    if (cell.link) link(cell, now, add);
    else if (cell.formula !== undefined) formula(cell, now, add);
    else if (cell.role === "input" || cell.role === "choice") input(cell, at, now, add);
    else if (cell.role === "shape") shape(cell, now, add);
    else fixed(cell, now, add);
    const number = cell.formula !== undefined || typeof cell.value === "number" || cell.role === "input";
    const change =
      number && cell.role !== "shape"
        ? formatChange(cell.format ?? "General", looks.formats[row]?.[column] ?? "General")
        : undefined;
    if (change)
      add(change.kind, change.grade, change.what, cell.format ?? "General", looks.formats[row]?.[column] ?? "General");
    if (!number && typeof cell.value === "string" && hidesTexts(looks.formats[row]?.[column] ?? "General"))
      add(
        "value hidden by format",
        "serious",
        "The number format does not show the text unchanged.",
        cell.format ?? "General",
        looks.formats[row]?.[column],
      );
  }
  return out;

  type Add = (kind: FindingKind, grade: Grade, what: string, expected?: string, found?: string) => void;

  function formula(cell: PlannedCell, now: CellContent, add: Add): void {
    // The same text where nothing has moved says the same, unless it names a sheet.
    if (asPlanned && now.formula === cell.formula && !cell.formula!.includes("!")) return;
    const expected = normalPlanned(cell.formula!, moves);
    if (now.formula === undefined) {
      if (now.value === null) add("formula missing", "serious", "The formula was deleted.", expected, "empty");
      else
        add(
          "typed over",
          "serious",
          "A value was typed over the formula: it does not follow the inputs any more.",
          expected,
          shown(now.value),
        );
      return;
    }
    const found = normalNow(now.formula, snapshot.sheet);
    if (found === expected) return;
    const change = formulaChange(expected, found);
    if (change) add(change.kind, "serious", change.what, expected, found);
  }

  /** What it refers to on another sheet is looked at in links.ts. */
  function link(cell: PlannedCell, now: CellContent, add: Add): void {
    if (now.formula === undefined)
      add(
        now.value === null ? "formula missing" : "typed over",
        "serious",
        now.value === null
          ? "The link was deleted."
          : "A value was typed over the link: it does not follow the source sheet any more.",
        `the source's ${cell.link!.name}`,
        shown(now.value),
      );
    else if (cell.role === "shape" && now.value !== plan.inputs[cell.link!.name.replace(/^kb_/, "")])
      add(
        "shape changed",
        "serious",
        "The source sheet has another configuration than this sheet was built with. Build this sheet again.",
        shown(plan.inputs[cell.link!.name.replace(/^kb_/, "")] as CellContent["value"]),
        shownResult(now),
      );
  }

  function input(cell: PlannedCell, at: Address, now: CellContent, add: Add): void {
    const fault = faultAt.get(`${at.row},${at.column}`);
    if (fault) {
      const text =
        cell.role === "input" && now.formula === undefined && isNumberAsText(now.value)
          ? " It is a number stored as text, which no formula computes with."
          : "";
      const symbol = plainSymbol(inputAt.get(`${cell.row},${cell.column}`)?.says.symbol ?? "–");
      add(
        "input not allowed",
        "serious",
        `The input ${symbol === "–" ? "" : `${symbol} `}${fault.fault}.${text}`,
        undefined,
        shownCell(now),
      );
    } else if (now.value === null && now.formula === undefined && !mayBeEmpty.has(`${cell.row},${cell.column}`)) {
      add("input missing", "note", "The input is empty; the sheet's verdict stays INCOMPLETE.");
    } else {
      const { quantity } = inputAt.get(`${cell.row},${cell.column}`)?.says ?? {};
      if (quantity && typeof now.value === "number" && isUnusual(quantity, now.value))
        add(
          "input unusual",
          "note",
          "The input is allowed but outside its everyday range.",
          `usually ${everydayText(quantity)}`,
          shownCell(now),
        );
    }
    if (now.formula === undefined) return;
    if (readsOwnResult(now.formula))
      add(
        "input linked",
        "look",
        "The input holds a formula that takes a result of this very sheet: what is checked may follow from what it is checked against.",
        undefined,
        now.formula,
      );
    else
      add("input linked", "note", "The input holds a formula: its value comes from elsewhere.", undefined, now.formula);
  }

  function readsOwnResult(text: string): boolean {
    let found = false;
    rewritten(text, snapshot.sheet, ({ sheet, from, to = from }) => {
      for (let r = from.row; r <= to.row && sheet === undefined && !found; r++)
        for (let c = from.column; c <= to.column; c++)
          found ||= computed.has(`${recognised.rowPlanned(r)},${recognised.columnPlanned(c)}`);
      return "";
    });
    return found;
  }

  function shape(cell: PlannedCell, now: CellContent, add: Add): void {
    if (now.formula === undefined && now.value === cell.value) return;
    add(
      "shape changed",
      "serious",
      "An input that shapes the sheet was changed; the rows are still those it was built with. Build the sheet again.",
      shown(cell.value),
      shownCell(now),
    );
  }

  function fixed(cell: PlannedCell, now: CellContent, add: Add): void {
    const { value = null } = cell;
    if (now.formula === undefined && (now.value === value || (value === null && now.value === ""))) return;
    // The embedded grid takes some row numbers for numbers when rows are inserted above: "14.3" says what it said.
    if (cell.role === "item" && now.formula === undefined && String(now.value) === value) return;
    if (value === null) {
      if (now.formula !== undefined || now.value !== null)
        add(
          "cell added",
          "look",
          "Something was written into a cell that the template leaves empty.",
          "empty",
          shownCell(now),
        );
      return;
    }
    if (typeof value === "number")
      return add(
        "number changed",
        "serious",
        cell.role === "bound" ? "A limit of the allowed range was changed." : "A fixed number was changed.",
        numberText(value),
        shownCell(now),
      );
    const { kind, grade, what } = texts[cell.role] ?? otherText;
    add(kind, grade, what, String(value), shownCell(now));
  }
}
