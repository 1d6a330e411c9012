import type { Address } from "../cells/index.ts";
import type { JudgedCell, Plan } from "./plan.ts";
import { plainSymbol } from "./says.ts";
import type { InputValue } from "./template.ts";

/** An input that is not filled in: what it is called everywhere. */
export interface MissingInput {
  /** As `--set` and the columns of a table of members name it: "fykE", "aiV[2][1]". */
  readonly id: string;
  /** "height of the plate, a_v". */
  readonly label: string;
  /** "right end, tendon 1"; empty outside tables. */
  readonly where: string;
  readonly at: Address;
  readonly status: Address;
}

/** "[2][1]": which place of a list a flat index is. */
function placeOf(value: InputValue | undefined, index: number): string {
  if (!Array.isArray(value)) return "";
  const sizeOf = (one: InputValue): number =>
    Array.isArray(one) ? (one as readonly InputValue[]).reduce<number>((sum, inner) => sum + sizeOf(inner), 0) : 1;
  let left = index;
  for (const [i, one] of (value as readonly InputValue[]).entries()) {
    const size = sizeOf(one);
    if (left < size) return `[${i + 1}]${placeOf(one, left)}`;
    left -= size;
  }
  return "";
}

/**
 * Every input that keeps its status at MISSING, in the order of the sheet. What is needed only where another input says
 * so is named where nothing else explains the status.
 */
export function missingInputs(
  { judged = [], meanings, inputs }: Pick<Plan, "judged" | "meanings" | "inputs">,
  isMissing: (status: Address) => boolean,
  valueAt: (at: Address) => unknown,
): readonly MissingInput[] {
  const open = judged.filter(({ status }) => isMissing(status));
  const isEmpty = ({ at, words }: JudgedCell): boolean => {
    const value = valueAt(at);
    return words ? value === null || value === undefined || value === "" : typeof value !== "number";
  };
  const empty = open.filter(isEmpty);
  const explained = new Set(empty.filter(({ sometimes }) => !sometimes).map(({ status }) => status.row));
  return empty
    .filter(({ sometimes, status }) => !sometimes || !explained.has(status.row))
    .map(({ id, index, where, at, status }) => {
      const meaning = meanings.find((one) => one.id === id);
      const symbol = plainSymbol(meaning?.symbol ?? "–");
      const text = meaning?.description ?? id;
      const label = symbol === "–" || symbol === "" || symbol === id ? text : `${text}, ${symbol}`;
      return { id: `${id}${placeOf(inputs[id], index)}`, label, where, at, status };
    });
}

/** "height of the plate, a_v (right end, tendon 1)". */
export const missingText = ({ label, where }: MissingInput): string => (where === "" ? label : `${label} (${where})`);
