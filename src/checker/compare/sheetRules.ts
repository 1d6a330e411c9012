import { format as numberText } from "../../core/index.ts";
import { likeColours, tones, type ColourRule, type EntryRule, type SheetRules } from "../../hosts/index.ts";
import type { Address, Area, Highlight, Validation } from "../../sheet/index.ts";
import type { Recognised } from "../recognise/recognised.ts";
import { cellAt } from "../snapshot.ts";
import { labels } from "./cells.ts";
import type { Finding } from "./finding.ts";
import { hidesNumbers, hidesTexts } from "./numberFormat.ts";

type Rule = Validation["rule"];
type Bound = "min" | "max" | "above" | "below";

const bounds: Readonly<Record<Bound, string>> = { above: "above", min: "at least", below: "below", max: "at most" };
const paper = "#FFFFFF";

function* cellsOf({ row, column, rows, columns }: Area): Generator<Address> {
  for (let r = row; r < row + rows; r++) for (let c = column; c < column + columns; c++) yield { row: r, column: c };
}

const covers = ({ row, column, rows, columns }: Area, at: Address): boolean => at.row >= row && at.row < row + rows && at.column >= column && at.column < column + columns;

/** Every cell of the plan that takes only some entries, where it stands now. */
function entryCells({ plan, rowNow, columnNow }: Recognised): readonly { readonly planned: Address; readonly at: Address; readonly rule: Rule }[] {
  return plan.validations.flatMap((validation) => [...cellsOf(validation)].flatMap((planned) => {
    const row = rowNow(planned.row);
    const column = columnNow(planned.column);
    return row === undefined || column === undefined ? [] : [{ planned, at: { row, column }, rule: validation.rule }];
  }));
}

/** The places whose rule of entry a comparison asks the host about. */
export const placesOfEntry = (recognised: Recognised): readonly Address[] => entryCells(recognised).map(({ at }) => at);

/** A rule in words: "whole number, at least 1, at most 12". */
function inWords(rule: Rule | "other"): string {
  if (rule === "other") return "a rule of another kind";
  if (rule.kind === "list") return `one of ${rule.values.join(", ")}`;
  const limits = (Object.keys(bounds) as readonly Bound[]).flatMap((bound) => (rule[bound] === undefined ? [] : [`${bounds[bound]} ${numberText(rule[bound])}`]));
  return [rule.whole ? "whole number" : "number", ...limits].join(", ");
}

/** Programs keep some fifteen digits of a bound. */
const sameNumber = (a: number | undefined, b: number | undefined): boolean => a === b || (a !== undefined && b !== undefined && Math.abs(a - b) <= 1e-14 * Math.abs(a));

function sameRule(planned: Rule, now: Rule | "other"): boolean {
  if (now === "other" || planned.kind !== now.kind) return false;
  if (planned.kind === "list") return now.kind === "list" && planned.values.join("\n") === now.values.join("\n");
  return now.kind === "number" && planned.whole === now.whole && (Object.keys(bounds) as readonly Bound[]).every((bound) => sameNumber(planned[bound], now[bound]));
}

/** Inputs that take other entries than the template lets them take. */
function entryFindings(recognised: Recognised, entries: readonly (EntryRule | undefined)[]): readonly Finding[] {
  const cells = entryCells(recognised);
  if (cells.length > 0 && entries.every((entry) => entry === undefined)) return [{ kind: "entry rule missing", grade: "look", what: "No input has its rule of entry any more: what is not allowed can be typed, and drop-down lists are gone. This comparison holds the inputs against their ranges all the same." }];
  const labelOf = labels(recognised);
  return cells.flatMap(({ planned, at, rule }, i): readonly Finding[] => {
    const now = entries[i];
    const finding = (kind: "entry rule missing" | "entry rule changed", what: string, found: string): Finding => ({ kind, grade: "look", at, label: labelOf(planned), what, expected: inWords(rule), found });
    if (!now) return [finding("entry rule missing", "The input takes whatever is typed.", "no rule")];
    if (!sameRule(rule, now.rule)) return [finding("entry rule changed", "The input takes other entries than the template lets it take.", inWords(now.rule))];
    return now.refuses ? [] : [finding("entry rule changed", "An entry that is not allowed is no longer refused.", `${inWords(now.rule)}; others with a remark only`)];
  });
}

/** Formulas that can be typed over, and inputs nobody can type into. */
function protectionFindings(recognised: Recognised, locked: SheetRules["locked"]): readonly Finding[] {
  const { plan, rowNow, columnNow } = recognised;
  if (!locked.flat().includes(true)) return [{ kind: "protection off", grade: "note", what: "The sheet is not protected: formulas can be typed over. This comparison shows where that was done." }];
  const labelOf = labels(recognised);
  const open = new Set(plan.unlocked.flatMap((area) => [...cellsOf(area)].map(({ row, column }) => `${row},${column}`)));
  return plan.cells.flatMap((cell): readonly Finding[] => {
    const row = rowNow(cell.row);
    const column = columnNow(cell.column);
    const isLocked = row === undefined || column === undefined ? undefined : locked[row]?.[column];
    if (isLocked === undefined) return [];
    const planned = !open.has(`${cell.row},${cell.column}`);
    const finding = { at: { row: row!, column: column! }, label: labelOf(cell) };
    if (planned && !isLocked && cell.formula !== undefined) return [{ ...finding, kind: "cell open", grade: "look", what: "The formula can be typed over although the sheet is protected.", expected: "protected", found: "open" }];
    if (!planned && isLocked) return [{ ...finding, kind: "cell locked", grade: "note", what: "Nobody can type into the input: it is protected like a formula.", expected: "open", found: "protected" }];
    return [];
  });
}

const isOf = (rule: ColourRule, { text, begins, tone }: Highlight): boolean => rule.text === text && rule.begins === begins && rule.color === tones[tone].color.toUpperCase() && rule.background === tones[tone].background.toUpperCase();

/** What a colour rule does to what it colours. */
function effect({ color, background = paper, format }: ColourRule): "hides" | "changes" | undefined {
  if (color !== undefined && likeColours(color, background)) return "hides";
  if (format !== undefined && format !== "" && (hidesNumbers(format) || hidesTexts(format))) return "changes";
  return undefined;
}

const said = ({ text, begins, color, background, format }: ColourRule): string => [
  text === undefined ? "on a condition of another kind" : begins ? `where it begins with ${text}` : `where it is ${text}`,
  color !== undefined && `letters ${color}`, background !== undefined && `ground ${background}`, format !== undefined && `format ${format}`,
].filter(Boolean).join(", ");

/** Verdicts and marks that do not take their colour: neighbours below each other together. */
function goneColours(recognised: Recognised, colours: readonly ColourRule[]): readonly Finding[] {
  const { plan, rowNow, columnNow } = recognised;
  if (plan.highlights.length > 0 && colours.length === 0) return [{ kind: "colour missing", grade: "look", what: "No verdict takes its colour any more: a FAIL looks like an OK." }];
  const labelOf = labels(recognised);
  const planned = new Set(plan.cells.map(({ row, column }) => `${row},${column}`));
  return plan.highlights.flatMap((highlight) => {
    const { text, begins, tone } = highlight;
    const wording = begins ? `What begins with ${text}` : text;
    const { color, background } = tones[tone];
    const expected = said({ areas: [], text, ...(begins && { begins }), color: color.toUpperCase(), background: background.toUpperCase() });
    const out: Finding[] = [];
    for (const cell of cellsOf(highlight)) {
      const row = rowNow(cell.row);
      const column = columnNow(cell.column);
      if (row === undefined || column === undefined || !planned.has(`${cell.row},${cell.column}`)) continue;
      const at = { row, column };
      const here = colours.filter(({ areas }) => areas.some((area) => covers(area, at)));
      if (here.some((rule) => isOf(rule, highlight))) continue;
      const other = here.find((rule) => rule.text === text && rule.begins === begins);
      const kind = other ? "colour changed" : "colour missing";
      const last = out.at(-1);
      if (last?.kind === kind && last.at!.column === column) out[out.length - 1] = { ...last, rows: row - last.at!.row + 1 };
      else out.push({ kind, grade: "look", at, label: labelOf(cell), expected, ...(other ? { what: `${wording} takes other colours.`, found: said(other) } : { what: `${wording} takes no colour.` }) });
    }
    return out;
  });
}

/** Colours the template does not give: they may hide what they colour. */
function ownColours(recognised: Recognised, colours: readonly ColourRule[]): readonly Finding[] {
  const { plan, rowPlanned, columnPlanned, snapshot } = recognised;
  const labelOf = labels(recognised);
  return colours.flatMap((rule): readonly Finding[] => {
    const what = effect(rule);
    if (what === undefined && plan.highlights.some(({ text, begins }) => text === rule.text && begins === rule.begins)) return [];
    return rule.areas.flatMap((area): readonly Finding[] => {
      const cells = [...cellsOf(trimmed(area, snapshot))].filter(({ row, column }) => rowPlanned(row) !== undefined && columnPlanned(column) !== undefined && cellAt(snapshot, row, column).text !== "");
      const [first] = cells;
      if (!first) return [];
      const label = labelOf({ row: rowPlanned(first.row)!, column: columnPlanned(first.column)! });
      const finding = { at: first, rows: cells.at(-1)!.row - first.row + 1, ...(label && { label }), found: said(rule) };
      if (what === "hides") return [{ ...finding, kind: "value hidden by colour", grade: "serious", what: "A colour rule gives the letters the colour of their ground." }];
      if (what === "changes") return [{ ...finding, kind: "value hidden by format", grade: "serious", what: "A colour rule brings a number format that does not show what stands there." }];
      return [{ ...finding, kind: "colour added", grade: "note", what: "Cells take a colour by a rule that the template does not have." }];
    });
  });
}

/** The part of an area within the used sheet. */
function trimmed({ row, column, rows, columns }: Area, { rows: most, columns: widest }: { readonly rows: number; readonly columns: number }): Area {
  return { row, column, rows: Math.max(0, Math.min(rows, most - row)), columns: Math.max(0, Math.min(columns, widest - column)) };
}

/** In what the sheet's rules are not those its template gives it: protection, what may be typed, colours by content. */
export function ruleFindings(recognised: Recognised, { locked, entries, colours }: SheetRules): readonly Finding[] {
  return [...protectionFindings(recognised, locked), ...entryFindings(recognised, entries), ...goneColours(recognised, colours), ...ownColours(recognised, colours)];
}

