import type { ChangeOfSheet, Parked, Recognised } from "../../src/checker/index.ts";
import type { Host } from "../../src/hosts/index.ts";
import type { Inputs, Template } from "../../src/sheet/index.ts";
import type { Engine } from "../engine.ts";

/** A sheet that can't be changed from the panel; the message says why and what to do. */
export class NotChangeable extends Error {
  override readonly name = "NotChangeable";
}

/**
 * The sheet in its present state.
 * @throws NotChangeable where no template of this version built it, or it is linked to a stress check
 */
export async function readNow(engine: Pick<Engine, "recognise">, host: Host, sheet: string): Promise<Recognised> {
  const now = await engine.recognise(host, sheet);
  if (!now)
    throw new NotChangeable(`${sheet} was not built by a template of this version: it can't be changed from here.`);
  if (now.template.source)
    throw new NotChangeable(
      `${sheet} follows its stress check: change that one, then build the linked sheet anew beside it.`,
    );
  return now;
}

/** What is asked: this sheet in another configuration, version or standard. */
export interface Asked {
  readonly sheet: string;
  readonly template: Template;
  readonly shape: Inputs;
  readonly parked: Parked;
}

/**
 * What the sheet would become, from what is typed on it at this moment.
 * @throws NotChangeable
 */
export async function changeNow(
  engine: Pick<Engine, "recognise" | "changeOfSheet">,
  host: Host,
  { sheet, template, shape, parked }: Asked,
): Promise<ChangeOfSheet> {
  return engine.changeOfSheet(await readNow(engine, host, sheet), template, shape, parked);
}

/** Whether both say the same and build the same sheet. */
export function sameChange(shown: ChangeOfSheet, now: ChangeOfSheet): boolean {
  const told = ({ carried, rows, overall, checks, checksAlike, marks, formulas, plan }: ChangeOfSheet): string =>
    JSON.stringify([
      [carried.inputs, carried.lost, carried.assumed, carried.kept],
      [rows, overall, checks, checksAlike, marks, formulas],
      [plan.template.id, plan.template.version, plan.inputs],
    ]);
  return told(shown) === told(now);
}
