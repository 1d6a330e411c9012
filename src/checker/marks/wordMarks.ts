import { agrees, cellAt, type Address, type CellContent } from "../../cells/index.ts";
import { columns, faultOfInput, singlesOf, type Entered, type InputCell, type Plan } from "../../sheet/index.ts";
import type { Recognised } from "../recognise/recognised.ts";
import { plannedAt, standing } from "../recognise/standing.ts";
import { partsOf, type Part } from "./parts.ts";
import {
  isWhileAny,
  readWordFormula,
  wordFormula,
  wordsInOrder,
  type Watched,
  type WatchingWord,
} from "./wordFormula.ts";

/** One cell of an input, as sets of them hold it. */
export const inputKey = (id: string, index: number): string => `${id}/${index}`;

/** By word, the cells of inputs that it is about. */
export type SaidOfCells = ReadonlyMap<string, (id: string, index: number) => boolean>;

const isEmpty = (value: string | number | null): boolean => value === null || value === "";

/**
 * The marks that follow the inputs of a plan: for each row or table with inputs that a word is about, a formula that
 * shows it as long as they are what they are in the plan.
 */
export function wordMarks(plan: Plan, said: SaidOfCells): readonly Entered[] {
  const inputs = plan.meanings.filter(({ id }) => Object.hasOwn(plan.inputs, id));
  return partsOf(plan)
    .flatMap(({ items }) => items)
    .flatMap(({ first, last, markRow }): readonly Entered[] => {
      if (markRow === undefined) return [];
      const within = inputs.filter(({ at }) => at.row >= first && at.row <= last);
      const words = wordsInOrder.flatMap((word): readonly WatchingWord[] => {
        const isAbout = said.get(word);
        if (!isAbout) return [];
        const cells = within.flatMap(({ id, at }) =>
          singlesOf(plan.inputs[id] ?? null).flatMap((value, i): readonly Watched[] =>
            isAbout(id, i) ? [{ row: at.row + i, column: at.column, value: isEmpty(value) ? null : value }] : [],
          ),
        );
        // In a table it is the filled places that somebody has to look at.
        const filled = cells.filter(({ value }) => value !== null);
        return cells.length === 0 ? [] : [{ word, cells: filled.length > 0 ? filled : cells }];
      });
      return words.length === 0 ? [] : [{ row: markRow, column: columns.mark, formula: wordFormula(words) }];
    });
}

const place = ({ row, column }: Address): string => `${row},${column}`;
const kept = new WeakMap<Recognised, ReadonlyMap<string, InputCell>>();

/** The inputs of a sheet by the place where each stands now. */
function inputsNow(recognised: Recognised): ReadonlyMap<string, InputCell> {
  const known = kept.get(recognised);
  if (known) return known;
  const found = new Map(
    recognised.inputCells.flatMap((cell): readonly (readonly [string, InputCell])[] => {
      const at = standing(recognised, cell.at);
      return at ? [[place(at), cell]] : [];
    }),
  );
  kept.set(recognised, found);
  return found;
}

/**
 * Whether a mark that follows inputs is about those of its own row or table, with values that they can take: another
 * one could say nothing of them. What was inserted among them counts for nothing.
 */
export function isOfPart(words: readonly WatchingWord[], part: Part, recognised: Recognised): boolean {
  const inputs = inputsNow(recognised);
  return words.every(({ cells }) => {
    const own = cells.flatMap(({ value, ...at }) => {
      const input = inputs.get(place(at));
      if (input) return [{ input, value }];
      return plannedAt(recognised, at) ? [undefined] : [];
    });
    return (
      own.length > 0 &&
      own.every(
        (one) =>
          one !== undefined &&
          one.input.at.row >= part.first &&
          one.input.at.row <= part.last &&
          faultOfInput(one.value, one.input) === undefined,
      )
    );
  });
}

/** A word that a mark says of one cell of an input. */
interface Said {
  readonly word: string;
  readonly cell: InputCell;
  /** Whether it still does: the cell holds what it held when it was marked. */
  readonly stands: boolean;
}

const saidKept = new WeakMap<Recognised, readonly Said[]>();

/** What the column of marks says of inputs, by a formula or by a word that was typed there. */
export function saidOf(recognised: Recognised): readonly Said[] {
  const known = saidKept.get(recognised) ?? readSaid(recognised);
  saidKept.set(recognised, known);
  return known;
}

function readSaid(recognised: Recognised): readonly Said[] {
  const { plan, snapshot, inputCells } = recognised;
  const inputs = inputsNow(recognised);
  return partsOf(plan)
    .flatMap(({ block, items }) => [block, ...items])
    .flatMap(({ first, last, markRow }): readonly Said[] => {
      const at = markRow === undefined ? undefined : standing(recognised, { row: markRow, column: columns.mark });
      if (!at) return [];
      const { value: shown, formula } = cellAt(snapshot, at.row, at.column);
      if (formula === undefined) {
        if (typeof shown !== "string" || !wordsInOrder.includes(shown)) return [];
        return inputCells
          .filter((cell) => cell.at.row >= first && cell.at.row <= last)
          .map((cell) => ({ word: shown, cell, stands: true }));
      }
      return (readWordFormula(formula) ?? []).flatMap(({ word, cells }) => {
        const holds = cells.map((one) => stillHolds(one, cellAt(snapshot, one.row, one.column)));
        const all = holds.every(Boolean);
        return cells.flatMap((one, i): readonly Said[] => {
          const cell = inputs.get(place(one));
          return cell ? [{ word, cell, stands: isWhileAny(word) ? holds[i]! : all }] : [];
        });
      });
    });
}

function stillHolds({ value }: Watched, { value: now, error }: CellContent): boolean {
  if (error) return false;
  return value === null ? now === null || now === "" : agrees(now, value);
}

/** The cells of inputs of which the marks still say a word. */
export function stillSaid(recognised: Recognised, word: string): ReadonlySet<string> {
  return new Set(
    saidOf(recognised).flatMap((one) =>
      one.word === word && one.stands ? [inputKey(one.cell.id, one.cell.index)] : [],
    ),
  );
}
