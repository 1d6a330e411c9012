import { a1, areaA1, textConstant, type Address, type Area } from "../cells/index.ts";
import { versionCall } from "./aboutCells.ts";
import { bandRow, columns, firstRow, titleRow, widthOver } from "./columns.ts";
import { fieldColumns, type Layout } from "./layout.ts";
import { areaAt, inputRole, own, type Filling } from "./planCells.ts";
import { noValue, putLink } from "./links.ts";
import type { Role } from "./plan.ts";
import { rowContext, whereCell } from "./rowCells.ts";
import { checkName, formatOf } from "./says.ts";
import type { ShapedBlock, ShapedFront, ShapedRow } from "./shape.ts";
import type { Template } from "./template.ts";
import { textWidth } from "./textWidth.ts";
import { builtCell, unconfirmedCount, warningAreas, write, type Written } from "./write.ts";

const at = (row: number, column: number): string => a1({ row, column }, true);

/** The columns of the list of checks, on the first page and in the register it is sorted from. */
export const checkColumns = {
  item: 0,
  text: 1,
  value: 6,
  limit: 7,
  unit: 8,
  utilisation: 9,
  where: 10,
  verdict: 14,
  key: 15,
} as const;
/** In the register the verdict column stays free: what stands there would be counted twice. */
const registerColumns = { ...checkColumns, verdict: 5, text: 1 } as const;

const checkHeads: readonly (readonly [keyof typeof checkColumns, string])[] = [
  ["text", "check"],
  ["value", "value"],
  ["limit", "limit"],
  ["unit", "unit"],
  ["utilisation", "util."],
  ["where", "where it governs"],
  ["verdict", "verdict"],
];

const checkHeadRoles: Readonly<Partial<Record<keyof typeof checkColumns, Role>>> = {
  value: "headingRight",
  limit: "headingRight",
  unit: "headingIn",
  utilisation: "headingRight",
  where: "headingIn",
};

/** Whose sheet it is wraps beside the title. */
const titleLines = 2;
/** How much wider than in a cell's own letters the title is, which is bold and larger. */
const titleScale = 1.5;

/** The column from which on the title leaves room, at least a third of the page. */
function firstBeside(title: string): number {
  const width = textWidth(title) * titleScale;
  let column: number = columns.symbol;
  while (column < columns.source - 2 && widthOver(0, column - 1) < width) column++;
  return column;
}

/** "Post-tensioned beam · IS 1343:2012 (form of 1980)": the edition in words, before what is said of it. */
function titleWithEdition({ title, standard }: Pick<Template, "title" | "standard">): string {
  const edition = /^[A-Z]+ [\d-]+:\d{4}/.exec(standard)?.[0];
  if (edition === undefined || title.includes(edition)) return title;
  const [, name, remark] = /^(.*?)( \([^()]*\))?$/.exec(title)!;
  return `${name} · ${edition}${remark ?? ""}`;
}

/** The title with whose sheet it is, and the verdict with what governs: the head of every page. */
export function fillTitle(filling: Filling): void {
  const { cells, sheet } = filling;
  const title = titleWithEdition(sheet.template);
  cells.put(titleRow, 0, "title", title);
  const named = ["project", "member", "revision"].flatMap((id) => {
    const subject = sheet.subjects.get(id);
    return subject?.kind === "row" ? [filling.layout.values.get(subject.row)!] : [];
  });
  if (named.length > 0) {
    const [project, member, revision] = named.map((address) => a1(address, true));
    const text = [
      `${project}&""`,
      ...(member ? [`IF(${member}="",""," · "&${member})`] : []),
      ...(revision ? [`IF(${revision}="",""," · revision "&${revision})`] : []),
    ].join("&");
    // Where the source of a linked sheet is gone, so is what its title says.
    const shown = sheet.template.source ? `IF(${project}="${noValue}","",${text})` : text;
    const from = firstBeside(title);
    cells.formula(titleRow, from, "titleRight", own(`=${shown}`, named.map(areaAt)), "title");
    cells.join(titleRow, from, columns.mark);
    cells.raise(titleRow, titleLines);
  }
}

/** The overall verdict and what governs, in view wherever one looks. */
export function fillBand(filling: Filling): void {
  const { cells, layout } = filling;
  const { overall } = cells;
  if (!overall) return;
  const word = a1(overall, true);
  cells.formula(bandRow, 0, "band", own(`=${word}`, [areaAt(overall)]), "verdict");
  const first = firstCheck(layout);
  const note = overallNote(filling);
  const governs = first
    ? `IF(ISNUMBER(${at(first, checkColumns.utilisation)}),"Governs: "&${at(first, checkColumns.text)}&", ` +
      `utilisation "&TEXT(${at(first, checkColumns.utilisation)},"0.00")&", ","First: "&${at(first, checkColumns.text)}&", ` +
      `")&${at(first, checkColumns.where)}&"."`
    : '""';
  // What governs is not known before all inputs are there; a check that fails is told all the same.
  const open = `AND(${word}="INCOMPLETE",NOT(${incomplete(filling).said}))`;
  const failing = first ? `IFERROR(IF(${at(first, checkColumns.verdict)}="FAIL",${governs},""),"")` : '""';
  const known = `IF(${open},${failing},IFERROR(${governs},${textConstant("a check shows an error")}))`;
  const scope = cellOf(filling, "notChecked");
  const read = ["notChecked", ...openLists].flatMap((id) => {
    const cell = cellOf(filling, id);
    return cell ? [areaAt(cell)] : [];
  });
  // While inputs are asked for, their list has the room of what is checked.
  const checked = scope ? `&IF(OR(${open},LEN(${a1(scope, true)})=0),""," Checked: "&${a1(scope, true)}&".")` : "";
  // Inputs stand above the configuration.
  const marks: Area = { row: firstRow, column: columns.mark, rows: layout.about.marks - firstRow, columns: 1 };
  const text = `${note === "" ? '""' : note}&${known}${checked}&${assumptions(marks)}`;
  const reads: readonly Area[] = first
    ? [{ row: first, column: checkColumns.item, rows: 1, columns: columns.mark }]
    : [];
  const functions = withoutFunctions(filling);
  const said = `=IF(ISERROR(${versionCall}),${functions.text},${text})`;
  cells.formula(
    bandRow,
    bandText,
    "bandText",
    own(said, [...reads, areaAt(overall), ...read, areaAt(functions.version), marks]),
    "verdict",
  );
  cells.raise(bandRow, bandLines);
  // The colour of the verdict is that of the whole joined cell.
  cells.join(bandRow, 0, bandText - 1);
  cells.join(bandRow, bandText, columns.mark);
}

/** How many inputs are still assumed: nobody's initials stand in place of the word. */
function assumptions(marks: Area): string {
  const count = unconfirmedCount(marks);
  return `IF(${count}=0,""," Assumptions not confirmed: "&${count}&".")`;
}

const bandText = 3;
const bandLines = 3;

/** What the first page says where the worksheet functions are missing, and the cell that names their version. */
function withoutFunctions({ layout }: Filling): { readonly text: string; readonly version: Address } {
  const version = builtCell(layout.about.lines.find(({ line }) => line === "functions")!.row);
  const before = textConstant(
    "The Kernbook functions are not loaded here: values are missing or old. Load the Kernbook add-in, version ",
  );
  const after = textConstant(" or later, open its panel and press “Repair the formulas”.");
  return { text: `${before}&${a1(version, true)}&${after}`, version };
}

/** What the overall verdict means for whoever reads it. */
function overallNote(filling: Filling): string {
  const { cells, layout } = filling;
  const word = a1(cells.overall!, true);
  const warnings = warningsCounted(layout);
  const counted = warnings?.text;
  const passed = textConstant("All checks pass. ");
  const answered = warnings
    ? `IF(${warnings.number}=0,${passed},${warnings.text}&" answered, all checks pass. ")`
    : passed;
  const meanings: readonly (readonly [string, string])[] = [
    ["OK", answered],
    ["FAIL", textConstant("A check fails. ")],
    ["WARNINGS", counted === undefined ? textConstant("Warnings are not answered. ") : `${counted}&" not answered. "`],
    ["INCOMPLETE", incomplete(filling).text],
    ["REBUILD", textConstant("The configuration was changed: build the sheet anew. ")],
  ];
  return meanings.reduceRight((rest, [one, text]) => `IF(${word}="${one}",${text},${rest})`, '""');
}

const openWords = textConstant("A limit is missing, or a check is open or shows an error. ");
/** So many letters of the inputs that are missing are named; the sheet has them all. */
const [enough, cutFrom] = [85, 60];

const linksLost = "No value from the source sheet (correct it there, or link it again under Build): ";

/** Rows that list inputs which keep the sheet from a verdict. */
const openLists = ["inMissing", "inRange", "inConflict", "notLinked", "sourceMissing"] as const;

/** What a linked sheet shows of its source is an error once that is gone; the sheet says so by another row. */
function listCell(id: string, cell: Address): string {
  const address = a1(cell, true);
  return id === "sourceMissing" ? `IFERROR(${address},"")` : address;
}

/** Which inputs are missing, out of range or in conflict; what else may keep a sheet from a verdict. */
function incomplete(filling: Filling): { readonly text: string; readonly said: string } {
  const named = (id: string, before: string): readonly string[] => {
    const cell = cellOf(filling, id);
    if (!cell) return [];
    const all = listCell(id, cell);
    const cut = `LEFT(${all},FIND(",",${all},${cutFrom}))`;
    const number = (of: string): string => `(LEN(${of})-LEN(SUBSTITUTE(${of},",","")))`;
    const shown = `${number(cut)}&" of "&${number(all)}&" shown: "&${cut}&" … "`;
    const some = `IF(LEN(${all})>${enough},${shown},LEFT(${all},LEN(${all})-2)&". ")`;
    return [`IF(${all}="","",${textConstant(before)}&${some})`];
  };
  const parts = [
    ...named("inMissing", "Inputs missing: "),
    ...named("inRange", "Inputs out of range: "),
    ...named("notLinked", linksLost),
    ...named("sourceMissing", "Inputs missing on the source sheet: "),
    ...named("inConflict", "Inputs in conflict: "),
  ];
  const said = parts.length === 0 ? '""' : parts.join("&");
  const none = openLists.flatMap((id) => {
    const cell = cellOf(filling, id);
    return cell ? [listCell(id, cell)] : [];
  });
  const empty = none.length === 0 ? "TRUE" : none.join("&") + '=""';
  return { text: `IF(${empty},${openWords},${said})`, said: empty };
}

/** "6 warnings", counted from their list; undefined where the sheet lists none. */
function warningsCounted(layout: Layout): { readonly number: string; readonly text: string } | undefined {
  const [list] = warningAreas(layout);
  if (!list) return undefined;
  const number = `COUNT(${areaA1({ ...list, column: countColumn }, true)})`;
  return { number, text: `${number}&" warning"&IF(${number}=1,"","s")` };
}

/** The cell of a row of the template, where it has one. */
function cellOf({ sheet, layout }: Filling, id: string): Address | undefined {
  const subject = sheet.subjects.get(id);
  return subject?.kind === "row" ? layout.values.get(subject.row) : undefined;
}

function checksItem({ sheet }: Layout): ShapedFront | undefined {
  return sheet.blocks
    .flatMap(({ items }) => items)
    .find((item): item is ShapedFront => item.kind === "front" && item.front.front === "checks");
}

/** The row of the first of the sorted checks. */
function firstCheck(layout: Layout): number | undefined {
  const item = checksItem(layout);
  const row = item && layout.itemRows.get(item);
  return row === undefined || !layout.register ? undefined : row + 1;
}

/** A block of the first page. */
export function fillFront(filling: Filling, block: ShapedBlock): void {
  const { cells, layout } = filling;
  let paragraph: string[] = [];
  let noteRow: number | undefined;
  const endParagraph = (): void => {
    if (noteRow !== undefined) cells.sentence(noteRow, "note", paragraph.join(" "), 0, columns.mark);
    [paragraph, noteRow] = [[], undefined];
  };
  for (const item of block.items) {
    if (item.kind === "note") {
      noteRow ??= layout.itemRows.get(item)!;
      paragraph.push(item.note.note.replace(/^• /, ""));
      continue;
    }
    endParagraph();
    if (item.kind === "row") fillField(filling, item);
    else if (item.kind === "front" && item.front.front === "checks") fillChecks(filling, item);
    else if (item.kind === "front" && item.front.front === "warnings") fillApplying(filling, item);
  }
  endParagraph();
}

/** Whether no other field stands beside it. */
function isAlone({ values }: Layout, { row, column }: Address): boolean {
  return ![...values.values()].some((other) => other.row === row && other.column !== column);
}

/** A field of the first page: what it is, and its value beside. */
function fillField(filling: Filling, shaped: ShapedRow): void {
  const { cells, layout, sheet } = filling;
  const { row: spec, says, place } = shaped;
  const value = layout.values.get(shaped)!;
  const { label, last } = fieldColumns.find((field) => field.value === value.column)!;
  cells.put(value.row, label, "fieldLabel", says.text);
  if (spec.input) {
    cells.put(value.row, value.column, inputRole(spec.input), filling.values.get(says.id)?.[0], says.format);
    if (spec.input.freeText) cells.join(value.row, value.column, last);
    cells.unlocked.push(areaAt(value));
    cells.validate(areaAt(value), spec.input, says);
  } else if (spec.taken !== undefined) {
    putLink(filling, value, spec.taken, 0, 1, place, says.unit === "–" ? undefined : formatOf(says), true);
    cells.join(value.row, value.column, isAlone(layout, value) ? columns.mark : last);
  } else {
    const full = write(spec.formula!, rowContext, value, layout);
    // What a linked sheet works out of its source is an error once that is gone; further down it stays one.
    const written =
      sheet.template.source && !spec.overall
        ? { ...full, formula: `=IFERROR(${full.formula.slice(1)},"${noValue}")` }
        : full;
    const role: Role = spec.overall ? "overall" : "field";
    cells.formula(value.row, value.column, role, written, place, says.unit === "–" ? undefined : formatOf(says));
    if (says.unit !== "–") cells.put(value.row, value.column + 1, "unit", says.unit);
    if (spec.overall) cells.overall = value;
  }
  cells.name(says.id, areaAt(value));
  cells.mean(says, "", areaAt(value));
}

/** The checks, failed ones first, then those that cannot be judged, then by utilisation. */
function fillChecks(filling: Filling, item: ShapedFront): void {
  const { cells, layout } = filling;
  const missing = item.front.missing === undefined ? undefined : cellOf(filling, item.front.missing);
  const head = layout.itemRows.get(item)!;
  const { register } = layout;
  for (const [name, text] of checkHeads) cells.put(head, checkColumns[name], checkHeadRoles[name] ?? "heading", text);
  const headed = new Set<number>(checkHeads.map(([name]) => checkColumns[name]));
  for (let column = 0; column <= columns.mark; column++) if (!headed.has(column)) cells.put(head, column, "heading");
  if (!register) return;
  const over = (column: number): Area => ({ row: register.first, column, rows: register.checks.length, columns: 1 });
  const keys = over(registerColumns.key);
  const texts = over(registerColumns.text);
  register.checks.forEach((_check, i) => {
    const row = head + 1 + i;
    cells.join(row, checkColumns.where, checkColumns.verdict - 1);
    for (const name of ["item", "text", "value", "limit", "unit", "utilisation", "where", "verdict"] as const) {
      const from = over(registerColumns[name]);
      // A function's value comes through INDEX as it is; an empty text stays one.
      const at = `MATCH(${i + 1},${areaA1(keys, true)},0)`;
      const found = `INDEX(${areaA1(from, true)},${at})`;
      const word = textConstant(name === "verdict" ? "INPUT MISSING" : "–");
      // An error that no missing input explains stays one; through IF some programs make 0 of an empty text.
      // Why there is no utilisation stands beside, where it governs.
      const shown = name === "utilisation" ? `IF(ISNUMBER(${found}),${found},"–")` : found;
      const said = missing
        ? `IF(ISERROR(${found}),IF(${a1(missing, true)}="",${found},${word}),IF(${found}&""="","",${shown}))`
        : found;
      // A check that is not listed says nothing, neither its value nor its limit.
      const named = name === "value" || name === "limit" || name === "unit";
      const formula = named ? `=IF(INDEX(${areaA1(texts, true)},${at})="","",${said})` : `=${said}`;
      cells.formula(
        row,
        checkColumns[name],
        checkRoles[name],
        own(formula, [from, keys, ...(named ? [texts] : []), ...(missing ? [areaAt(missing)] : [])]),
        "checks",
        checkFormats[name],
      );
    }
  });
}

const checkRoles = {
  item: "item",
  text: "description",
  value: "checkValue",
  limit: "checkValue",
  unit: "unit",
  utilisation: "utilisation",
  where: "checkWhere",
  verdict: "verdict",
} as const satisfies Partial<Record<keyof typeof checkColumns, Role>>;
const checkFormats: Partial<Record<keyof typeof checkColumns, string>> = {
  value: "0.00",
  limit: "0.00",
  utilisation: "0.00",
};

/**
 * All checks in the order of the sheet, each with its rank: the first page is sorted from here by plain look-ups, in
 * every program. The key of a check is smaller the sooner it is to be read.
 */
export function fillRegister(filling: Filling): void {
  const { cells, layout } = filling;
  const { register } = layout;
  if (!register) return;
  const { first, checks } = register;
  cells.put(
    first - 2,
    columns.description,
    "note",
    "All checks in the order of the sheet, with their rank on the first page",
  );
  const heads: readonly (readonly [number, string])[] = [
    [registerColumns.text, "check"],
    [registerColumns.verdict, "verdict"],
    [registerColumns.value, "value"],
    [registerColumns.limit, "limit"],
    [registerColumns.unit, "unit"],
    [registerColumns.utilisation, "utilisation"],
    [registerColumns.where, "where it governs"],
    [sortColumn, "order"],
    [registerColumns.key, "rank"],
  ];
  for (const [column, text] of heads) cells.put(first - 1, column, "tableSymbol", text);
  const orders: Area = { row: first, column: sortColumn, rows: checks.length, columns: 1 };
  checks.forEach((check, i) => {
    const row = first + i;
    const { row: spec, item, place } = check;
    const own_ = layout.itemRows.get(check)!;
    const cell = (column: number, formula: Written, role: Role, format?: string): void =>
      cells.formula(row, column, role, formula, `${place}, summary`, format);
    const verdict = { row: own_, column: columns.verdict };
    const value = { row: own_, column: columns.value };
    const { aside } = spec.summary!;
    // What only gathers the others' verdicts is listed where it does not pass.
    const listed = (text: string): string => (aside ? `=IF(${a1(verdict, true)}="OK","",${text})` : `=${text}`);
    const copy = (address: Address): Written => own(listed(a1(address, true)), [areaAt(verdict), areaAt(address)]);
    const named = (column: number, role: Role, text: string): void =>
      aside
        ? cell(column, own(listed(textConstant(text)), [areaAt(verdict)]), role)
        : cells.put(row, column, role, text);
    named(registerColumns.item, "item", item);
    named(registerColumns.text, "description", checkName(check));
    cell(registerColumns.verdict, copy(verdict), "description");
    const said = (formula: string | undefined, column: number): Written => {
      if (formula === undefined) return own('=""', []);
      const written = write(formula, rowContext, { row, column }, layout);
      if (!aside) return written;
      return {
        ...written,
        formula: listed(`(${written.formula.slice(1)})`),
        reads: [...written.reads, areaAt(verdict)],
      };
    };
    cell(registerColumns.value, said(spec.summary!.value, registerColumns.value), "value", "0.0##");
    cell(registerColumns.limit, said(spec.summary!.limit, registerColumns.limit), "value", "0.0##");
    cells.put(row, registerColumns.unit, "unit", spec.summary!.unit ?? " ");
    cell(registerColumns.utilisation, copy(value), "value", "0.00");
    cell(registerColumns.where, copy(whereCell(filling, check)), "source");
    cell(sortColumn, own(orderFormula(row), [areaAt(verdict), areaAt(value)]), "value", "0.00");
    const ranks = `=SUMPRODUCT((${areaA1(orders, true)}<${at(row, sortColumn)})*1)+1`;
    cell(registerColumns.key, own(ranks, [orders]), "value", "0");
  });
}
const sortColumn = 13;

/**
 * Failed or in error before open before passed; within each, the higher utilisation first; the order of the sheet where
 * all else is equal.
 */
function orderFormula(row: number): string {
  const verdict = at(row, registerColumns.verdict);
  const utilisation = at(row, registerColumns.utilisation);
  const passing = `IF(${verdict}="OK",2000,IF(${verdict}="",4000,1000))`;
  const group = `IF(ISERROR(${verdict}),0,IF(${verdict}="FAIL",0,${passing}))`;
  // What passes for another reason than its ratio does not govern.
  const passed = `IF(AND(${group}=2000,${utilisation}>1),0,MIN(${utilisation},900))`;
  return `=${group}-IF(ISNUMBER(${utilisation}),${passed},0)+${row}/1000000`;
}

/** Lines of a warning on the first page, and so many of its letters they hold, in every program; the list has them all. */
const warningLines = 2;
const [mostOfWarning, cutOfWarning] = [215, 195];

/** The warnings that apply, each naming its input, as far as there is room. */
function fillApplying(filling: Filling, item: ShapedFront): void {
  const { cells, layout } = filling;
  const head = layout.itemRows.get(item)!;
  const lines = item.front.lines ?? 1;
  const [list] = warningAreas(layout);
  if (!list) return;
  const counts: Area = { ...list, column: countColumn };
  const label: Area = { ...list, column: columns.description };
  const number = `COUNT(${areaA1(counts, true)})`;
  const code = cellOf(filling, "answerCode");
  const typed = cellOf(filling, "warningsAnswered");
  const state =
    code && typed
      ? `IF(ISERROR(${a1(code, true)}),"",IF(${a1(typed, true)}&""=${a1(code, true)},", answered",", not answered; ` +
        `code "&${a1(code, true)}))`
      : '""';
  cells.formula(
    head,
    0,
    "fieldLabel",
    own(
      `=IF(${number}=0,"No warnings apply.",${number}&" warning"&IF(${number}=1," applies","s apply")&${state}&IF(${number}>${lines},"; ` +
        `the first ${lines}:",":"))`,
      [counts, ...[code, typed].flatMap((cell) => (cell ? [areaAt(cell)] : []))],
    ),
    "warnings",
  );
  for (let i = 0; i < lines; i++) {
    const place = `MATCH(${i + 1},${areaA1(counts, true)},0)`;
    const said = `INDEX(${areaA1(label, true)},${place})&":"&INDEX(${areaA1(list, true)},${place})`;
    const some = `IF(LEN(${said})>${mostOfWarning},LEFT(${said},FIND(" ",${said}&" ",${cutOfWarning}))&"…",${said})`;
    cells.formula(head + 1 + i, 0, "warning", own(`=IFERROR(${some},"")`, [label, list, counts]), "warnings");
    cells.join(head + 1 + i, 0, columns.mark);
    cells.raise(head + 1 + i, warningLines);
  }
}

/** Beside each warning of the list: its number among those that apply. */
const countColumn = columns.item;

export function fillWarningCounts({ cells, layout }: Filling): void {
  const [list] = warningAreas(layout);
  if (!list) return;
  // From the row above the list, which holds no number, so that all rows have one formula.
  const head = list.row - 1;
  for (let row = list.row; row < list.row + list.rows; row++) {
    const above = `${at(head, countColumn)}:$${a1({ row: row - 1, column: countColumn })}`;
    const text = `$${a1({ row, column: list.column })}`;
    const reads = [
      { row, column: list.column, rows: 1, columns: 1 },
      { row: head, column: countColumn, rows: row - head, columns: 1 },
    ];
    cells.formula(row, countColumn, "item", own(`=IF(LEN(${text})>1,COUNT(${above})+1,"–")`, reads), "warnings");
  }
}
