import { Calculation, cellAt, piecesOf, splitSheet, type Address, type Computed } from "../../cells/index.ts";
import {
  assumedWord,
  expand,
  noFigure,
  noResultText,
  plainSymbol,
  plannedSnapshot,
  singlesOf,
  type Entered,
  type Inputs,
  type InputValue,
  type Plan,
  type Template,
} from "../../sheet/index.ts";
import { bookOfSheets } from "../book/bookOfSheets.ts";
import type { EnteredCell } from "../marks/marks.ts";
import { wordsInOrder } from "../marks/wordFormula.ts";
import { inputKey, stillSaid, wordMarks } from "../marks/wordMarks.ts";
import type { Recognised } from "../recognise/recognised.ts";
import { standing } from "../recognise/standing.ts";
import { textOf } from "../whatIf/state.ts";
import { changedName } from "./changedName.ts";
import { carryOver, type CarriedOver, type Lost, type Parked } from "./carryOver.ts";
import { changedRows, type ChangedRow } from "./changedRows.ts";
import { membersAssumed, type MemberAssumed } from "./membersAssumed.ts";

/** What a check says, in words: where its cells show an error, why it has no result. */
export interface SaidState {
  readonly utilisation: string;
  readonly verdict: string;
}

/** A check on the present sheet and on the one that would take its place. */
export interface CheckChange {
  readonly description: string;
  readonly before: SaidState;
  readonly after: SaidState;
}

/** A sheet beside the one that would take its place: nothing is built yet. */
export interface ChangeOfSheet {
  /** What the new sheet is to be called, by what changes. */
  readonly name: string;
  readonly carried: CarriedOver;
  /** New members of a list, which began as the one before. */
  readonly members: readonly MemberAssumed[];
  readonly plan: Plan;
  /** Rows that a newer version of the same template has otherwise; none for another standard or configuration. */
  readonly rows: readonly ChangedRow[];
  readonly overall: { readonly before: string; readonly after: string };
  /** Those whose verdict or utilisation changes. */
  readonly checks: readonly CheckChange[];
  readonly checksAlike: number;
  /** The marks that come with the sheet: what nobody has confirmed, what was measured, what is the office's. */
  readonly marks: readonly Entered[];
  /** Formulas typed into inputs, to be entered once the sheet is built. */
  readonly formulas: readonly EnteredCell[];
}

const three = (text: string): string => {
  const value = Number(text);
  return text === "" || !Number.isFinite(value) ? text : String(Number(value.toPrecision(3)));
};

/** How the checks of a sheet are told from its cells; one that the sheet does not have says nothing. */
function stateSayer(
  { cells }: Plan,
  valueAt: (at: Address) => Computed,
): (check: Pick<Plan["summary"]["checks"][number], "utilisation" | "verdict"> | undefined) => SaidState {
  const statuses = cells.filter(({ role, formula }) => role === "verdict" && formula !== undefined);
  let why: string | undefined;
  return (check) => {
    if (!check) return { utilisation: "", verdict: "" };
    const [figure, verdict] = [valueAt(check.utilisation), valueAt(check.verdict)];
    if (!figure.error && !verdict.error) return { utilisation: three(textOf(figure)), verdict: textOf(verdict) };
    why ??= noResultText(statuses.map((cell) => textOf(valueAt(cell))));
    return {
      utilisation: figure.error ? noFigure : three(textOf(figure)),
      verdict: verdict.error ? why : textOf(verdict),
    };
  };
}

/** Inputs of the sheet that the newer template asks for in another unit, or not at all, and those it does not allow. */
function setAside(
  { template, inputs, inputCells, faults, snapshot }: Recognised,
  rows: readonly ChangedRow[],
  before: Plan,
): { readonly inputs: Inputs; readonly lost: readonly Lost[] } {
  const kept: Record<string, InputValue> = { ...inputs };
  const lost: Lost[] = [];
  for (const { id, change, before: was, after: now, text, input } of rows) {
    const cells = inputCells.filter((cell) => cell.id === id);
    if (change === "unit" && cells[0]) {
      const value = singlesOf(inputs[id]).find((one) => one !== null && one !== "");
      kept[id] = before.inputs[id] ?? null;
      if (value === undefined || value === null) continue;
      lost.push({ id, where: "", text, value, unit: was, why: `it is asked for in ${now} now, not in ${was}` });
    }
    if (change === "gone" && input)
      lost.push({ id, where: "", text, value: was, unit: "–", why: `${template.title} does not have it any more` });
  }
  for (const { id, at, fault } of faults) {
    const { value, text, error } = cellAt(snapshot, at.row, at.column);
    const says = inputCells.find((cell) => cell.id === id)!.says;
    lost.push({
      id,
      where: "",
      text: says.symbol === "–" ? says.text : `${plainSymbol(says.symbol)}, ${says.text}`,
      value: error?.code ?? (typeof value === "number" ? value : text || String(value)),
      unit: says.unit,
      why: fault,
    });
  }
  return { inputs: kept, lost };
}

/** Whether all that a formula refers to stands on other sheets. */
const looksElsewhere = (formula: string, own: string): boolean =>
  piecesOf(formula)
    .filter(({ kind }) => kind === "cells" || kind === "name")
    .map(({ text }) => splitSheet(text).sheet?.toLowerCase())
    .every((sheet) => sheet !== undefined && sheet !== own.toLowerCase());

/** Formulas typed into inputs that look at other sheets only: they give the same on any sheet. */
function formulasIn(recognised: Recognised, carried: CarriedOver, plan: Plan): readonly EnteredCell[] {
  const { snapshot, inputCells } = recognised;
  return inputCells.flatMap(({ id, index, at }): readonly EnteredCell[] => {
    const now = standing(recognised, at);
    const formula = now && cellAt(snapshot, now.row, now.column).formula;
    if (formula === undefined || recognised.template.source) return [];
    if (!looksElsewhere(formula, snapshot.sheet)) return [];
    const target = plan.meanings.find((meaning) => meaning.id === id)?.at;
    if (!target || index >= target.rows || singlesOf(carried.inputs[id] ?? null)[index] === null) return [];
    return [{ row: target.row + index, column: target.column, formula }];
  });
}

/** What a sheet becomes in another configuration, version or standard, with what that does to its verdicts. */
export function changeOfSheet(
  recognised: Recognised,
  template: Template,
  shape: Inputs,
  parked: Parked = {},
): ChangeOfSheet {
  const { plan: before, snapshot, head } = recognised;
  const sameTemplate = template.id === recognised.template.id;
  const older = sameTemplate && head.templateVersion !== template.version;
  const rows = older ? changedRows(snapshot, before) : [];
  const aside = setAside(recognised, rows, expand(recognised.template, shapeOf(recognised)));
  const words = wordsOn(recognised);
  const carried = carryOver({ template: recognised.template, inputs: aside.inputs, parked, words }, template, shape);
  const all: CarriedOver = { ...carried, lost: [...aside.lost, ...carried.lost] };
  const plan = expand(template, carried.inputs);
  const calculation = new Calculation(bookOfSheets([plannedSnapshot(plan, "New")]), [], { everything: true });
  const computed = (at: Address): Computed => calculation.valueAt({ sheet: "New", ...at });
  const standingNow = (at: Address): Computed => {
    const place = standing(recognised, at);
    return place ? cellAt(snapshot, place.row, place.column) : { value: null };
  };
  const [sayBefore, sayAfter] = [stateSayer(before, standingNow), stateSayer(plan, computed)];
  const old = new Map(before.summary.checks.map((check) => [check.id, check] as const));
  const checks = plan.summary.checks.map(({ id, description, utilisation, verdict }): CheckChange => ({
    description,
    before: sayBefore(old.get(id)),
    after: sayAfter({ utilisation, verdict }),
  }));
  const gone = before.summary.checks
    .filter(({ id }) => !plan.summary.checks.some((check) => check.id === id))
    .map(({ description, utilisation, verdict }): CheckChange => ({
      description,
      before: sayBefore({ utilisation, verdict }),
      after: sayAfter(undefined),
    }));
  const differ = [...checks, ...gone].filter(
    ({ before: b, after: a }) => b.utilisation !== a.utilisation || b.verdict !== a.verdict,
  );
  return {
    name: changedName(snapshot.sheet, recognised, { template, inputs: plan.inputs }, head.templateVersion),
    carried: all,
    members: membersAssumed(carried.assumed),
    plan,
    rows,
    overall: { before: textOf(standingNow(before.summary.overall)), after: textOf(computed(plan.summary.overall)) },
    checks: differ,
    checksAlike: checks.length + gone.length - differ.length,
    marks: marksOn(words, carried, plan),
    formulas: formulasIn(recognised, carried, plan),
  };
}

type Words = ReadonlyMap<string, readonly string[]>;

/** The words that the marks of a sheet still say, by the place of the input. */
function wordsOn(recognised: Recognised): Words {
  const all = new Map<string, string[]>();
  for (const word of wordsInOrder)
    for (const key of stillSaid(recognised, word)) all.set(key, [...(all.get(key) ?? []), word]);
  return all;
}

/**
 * The words that follow inputs, where their inputs stand on the new sheet; those of values that were set aside come back
 * with them. What is new there is assumed.
 */
function marksOn(words: Words, { assumed, from, back }: CarriedOver, plan: Plan): readonly Entered[] {
  const added = new Set(assumed.map(({ id, index }) => inputKey(id, index)));
  const said = wordsInOrder.map((word) => {
    const isAbout = (id: string, index: number): boolean => {
      const key = inputKey(id, index);
      if (added.has(key)) return word === assumedWord;
      return (back.get(key) ?? words.get(from.get(key) ?? ""))?.includes(word) === true;
    };
    return [word, isAbout] as const;
  });
  return wordMarks(plan, new Map(said));
}

function shapeOf({ template, inputs }: Recognised): Inputs {
  return Object.fromEntries(template.shape.map(({ id }) => [id, inputs[id] ?? null]));
}
