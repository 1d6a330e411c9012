import { a1, cut, type Area, type CellContent } from "../cells/index.ts";
import { SheetNameTaken, type Host } from "../hosts/index.ts";
import { freeSheetName, isSheetNameTaken, type Plan } from "../sheet/index.ts";
import { csvLimits } from "./csv.ts";
import { builtMember, byConfiguration, plannedMember, refusedEntry, type Run } from "./memberSheets.ts";
import { membersOf, type Member, type TableRow, type TableTemplates } from "./memberTable.ts";
import { Refused } from "./refused.ts";
import { comparedWithLast, entriesOf, gone, NotARegister, type Entry } from "./register.ts";
import { registerPlan } from "./registerPlan.ts";

/** A workbook with more check sheets than this opens and computes too slowly; the command writes files in their place. */
export const mostInWorkbook = 50;

/** Of a sheet's name, in characters. */
const longestName = 31;

const registerTitle = "Register of members";

export interface OnHostOptions {
  readonly templates: TableTemplates;
  readonly run: Run;
  /** The sheet with the table, and its cells. */
  readonly table: { readonly sheet: string; readonly area: Area };
  readonly date: string;
  readonly progress: (done: number, of: number, what: string) => void;
  readonly signal: AbortSignal;
  /** Called with each sheet that stands. */
  readonly built: (plan: Plan, sheet: string) => void;
}

export interface OnHost {
  readonly entries: readonly Entry[];
  /** The sheet of the register. */
  readonly register: string;
  /** How many members were left out because somebody cancelled. */
  readonly left: number;
}

/** A cell as a field of a table: numbers with all their digits, not as they are shown. */
function fieldOf({ value }: CellContent): string {
  if (typeof value === "boolean") return String(value).toUpperCase();
  return value === null ? "" : String(value);
}

/** The rows of a range that hold something, with the numbers of the sheet's rows. Throws Refused where it is no table. */
export async function rowsOf(host: Host, { sheet, area }: OnHostOptions["table"]): Promise<readonly TableRow[]> {
  const used = await host.used(sheet);
  const rows = Math.min(area.rows, used.row + used.rows - area.row);
  const columns = Math.min(area.columns, used.column + used.columns - area.column);
  if (rows < 2 || columns < 1)
    throw new Refused([`“${sheet}” holds no table there: a row of headings and a row for each member are needed`]);
  if (rows > csvLimits.records || columns > csvLimits.fields)
    throw new Refused([`the range has ${rows} rows and ${columns} columns; select the table alone`]);
  const cells = await host.read(sheet, { row: area.row, column: area.column, rows, columns });
  return cells.flatMap((line, r): readonly TableRow[] => {
    if (line.every((cell) => fieldOf(cell).trim() === "" && !cell.error)) return [];
    const c = line.findIndex(({ error }) => error !== undefined);
    const row = area.row + r;
    return [
      {
        line: row + 1,
        fields: line.map(fieldOf),
        ...(c >= 0 && { fault: `the cell ${a1({ row, column: area.column + c })} shows ${line[c]!.error!.code}` }),
      },
    ];
  });
}

/** The entries of the workbook's newest register; undefined where it has none. */
async function lastRegister(host: Host, names: readonly string[]): Promise<readonly Entry[] | undefined> {
  const registers = names.filter((name) => name === registerTitle || name.startsWith(`${registerTitle} `));
  for (const sheet of registers.reverse()) {
    const used = await host.used(sheet);
    const cells = await host.read(sheet, {
      row: 0,
      column: 0,
      rows: used.row + used.rows,
      columns: used.column + used.columns,
    });
    try {
      return entriesOf(
        cells.map((line) => line.map(({ value }) => (typeof value === "boolean" ? String(value) : value))),
        false,
      );
    } catch (error) {
      // A sheet of the user's own with such a name: the one before may be a register.
      if (!(error instanceof NotARegister)) throw error;
    }
  }
  return undefined;
}

const isCancelled = (error: unknown): boolean => error instanceof Error && error.name === "AbortError";

/**
 * A sheet for each row of a range, and the register as a sheet. Unchanged members of the last register keep their
 * sheets; no sheet is ever replaced, so that a changed one stands beside its last. Cancelled, the register holds what is
 * done, and the next run goes on from there.
 */
export async function membersOnHost(host: Host, options: OnHostOptions): Promise<OnHost> {
  const { templates, table, progress, signal } = options;
  const { members, bad } = membersOf(await rowsOf(host, table), ",", templates);
  if (members.length > mostInWorkbook)
    throw new Refused([
      `the table has ${members.length} members; a workbook takes ${mostInWorkbook} at once. Save the table as CSV and ` +
        "write files with the command (npm run -s sheet -- --members)",
    ]);
  const names = [...(await host.sheetNames())];
  const last = await lastRegister(host, names);
  const known = new Map((last ?? []).map((entry) => [entry.member.toLowerCase(), entry]));
  const entries: Entry[] = bad.map(({ name, faults }) => refusedEntry(name, faults));
  const ordered = byConfiguration(members);
  let done = 0;
  try {
    for (const member of ordered) {
      signal.throwIfAborted();
      const step = (what: string): void => progress(done, ordered.length, `${member.name} (${what})`);
      entries.push(await oneOnHost(host, member, options, known.get(member.name.toLowerCase()), names, step));
      done++;
    }
  } catch (error) {
    if (!isCancelled(error)) throw error;
  }
  const left = ordered.length - done;
  // Members that were not reached keep their line, so that the next run knows their sheets.
  for (const { name } of ordered.slice(done)) {
    const before = known.get(name.toLowerCase());
    if (before) entries.push(before);
  }
  const compared = comparedWithLast(entries, last);
  progress(done, ordered.length, "register");
  const from = `“${table.sheet}”, ${members.length + bad.length} members${left > 0 ? `, ${left} not done yet` : ""}`;
  const plan = registerPlan(compared, { date: options.date, from });
  const { sheet } = await host.apply(plan, {
    sheetName: freeSheetName(registerTitle, await host.sheetNames()),
    progress: () => undefined,
  });
  return { entries: compared, register: sheet, left };
}

/** The member's name; with (2) behind it where its last sheet has that, since "Beam 3" would be another member. */
function sheetNameFor(name: string, taken: readonly string[]): string {
  const plain = freeSheetName(name, []);
  if (!isSheetNameTaken(plain, taken)) return plain;
  for (let n = 2; ; n++) {
    const end = ` (${n})`;
    const next = `${freeSheetName(cut(name, longestName - end.length), [])}${end}`;
    if (!isSheetNameTaken(next, taken)) return next;
  }
}

async function oneOnHost(
  host: Host,
  member: Member,
  { run, signal, built }: OnHostOptions,
  before: Entry | undefined,
  names: string[],
  step: (what: string) => void,
): Promise<Entry> {
  try {
    const planned = plannedMember(member, run);
    if (before?.inputs === planned.mark && before.verdict !== gone && isSheetNameTaken(before.file, names))
      return before;
    step("computing");
    // A breath, so that the step shows and Cancel is heard.
    await new Promise((next) => setTimeout(next, 0));
    signal.throwIfAborted();
    const sheetName = sheetNameFor(member.name, names);
    const { entry, plan, sheets } = builtMember(planned, { ...run, linked: () => [] }, sheetName);
    const { sheet } = await host.apply(sheets[0]!.plan, {
      sheetName,
      progress: (_done, _of, what) => step(what),
      signal,
    });
    names.push(sheet);
    built(plan, sheet);
    return entry;
  } catch (error) {
    if (error instanceof Refused || error instanceof SheetNameTaken)
      return refusedEntry(member.name, error instanceof Refused ? error.messages : [error.message], member.template);
    throw error;
  }
}
