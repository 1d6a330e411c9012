import { branchesOf, branchOf, keyOf, type Branch } from "./tree.ts";
import type { TracedCell, Tracer } from "./traceCell.ts";
import type { Place } from "../../hosts/index.ts";

/** What a calculation note says: the inputs, then each quantity after those it is computed from. */
export interface Collected {
  readonly root: TracedCell;
  /** Cells without a formula, and ranges taken together. */
  readonly inputs: readonly Branch[];
  readonly quantities: readonly TracedCell[];
  /** Cells with a formula that were not followed further, since the depth or the note's length ends there. */
  readonly notFollowed: readonly Branch[];
}

interface CollectOptions {
  /** How many steps from the value back; Infinity down to the inputs. */
  readonly depth: number;
  /** At most so many quantities. */
  readonly most?: number;
  /** Ranges of more cells than this are taken together. */
  readonly range?: number;
  readonly progress?: (done: number) => void;
}

/** Follows a value back and puts what it comes about from in order of calculation. */
export async function collect(
  tracer: Tracer,
  place: Place,
  { depth, most = 200, range = 12, progress }: CollectOptions,
): Promise<Collected> {
  const inputs = new Map<string, Branch>();
  const ends = new Map<string, Branch>();
  const begun = new Map<string, TracedCell>();
  const quantities: TracedCell[] = [];
  const from = place.sheet;

  const end = (branch: Branch): void => {
    if (branch.opens && branch.kind === "cell") ends.set(branch.key, branch);
    else inputs.set(branch.key, branch);
  };
  /** Cells at depth `left` from the end; those nearer to the root are followed further. */
  const visit = async (cell: TracedCell, left: number): Promise<void> => {
    if (cell.partOf) for (const anchor of branchesOf(cell, from)) await follow(anchor, left);
    for (const origin of cell.precedents) {
      const branch = branchOf(origin, from);
      const cells =
        branch.kind === "range" &&
        branch.opens &&
        origin.contents.flat().some((c) => c.formula !== undefined) &&
        branch.place!.rows * branch.place!.columns <= range
          ? await tracer.cellsOf(branch.place!, from)
          : [branch];
      for (const each of cells) await follow(each, left);
    }
    quantities.push(cell);
    progress?.(quantities.length);
  };
  const follow = async (branch: Branch, left: number): Promise<void> => {
    if (branch.kind !== "cell" || !branch.opens) return end(branch);
    if (begun.has(branch.key)) return;
    if (left <= 0 || begun.size >= most) return end(branch);
    const cell = await tracer.trace(branch.place!);
    begun.set(branch.key, cell);
    await visit(cell, left - 1);
  };

  const root = await tracer.trace(place);
  begun.set(keyOf(place), root);
  await visit(root, depth);
  // Reached by a long way first and by a short one later, an end may have been followed after all.
  for (const key of begun.keys()) ends.delete(key);
  return { root, inputs: [...inputs.values()], quantities, notFollowed: [...ends.values()] };
}
