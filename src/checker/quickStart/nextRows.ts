import type { Member } from "./member.ts";
import { rowSteel, type Steel } from "./steel.ts";
import { kindOf } from "./steelKind.ts";
import { equalRows, spacingOf, strandLayout, type Search, type StrandRow, type Within } from "./strandLayout.ts";
import type { Task } from "./task.ts";
import type { Trial } from "./trial.ts";
import type { Tried } from "./tried.ts";

export function rowsFor(task: Task, member: Member, trial: Trial, atLeast: number, tried: Tried): Steel | undefined {
  const full = Math.max(...trial.numbers("lpt1")) / 1000;
  const { answers, dimensions } = task;
  const within: Within = { section: answers.section, dimensions, spacing: spacingOf(kindOf(answers)) };
  const isTried = (rows: readonly StrandRow[]): boolean => tried.has(rowSteel(task, rows));
  const search: Search = { atLeast, isTried };
  const given = { rows: answers.tendons, each: answers.strands };
  const rows =
    given.rows === undefined && given.each === undefined
      ? strandLayout(member, within, full, search)
      : equalRows(member, within, full, given, search);
  return rows && rowSteel(task, rows);
}
