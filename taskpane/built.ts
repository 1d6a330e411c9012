import type { Plan } from "../src/sheet/index.ts";

/** A sheet built in this session: its plan says what each of its cells means. */
export interface Built {
  readonly sheet: string;
  readonly plan: Plan;
  /** What there is to say of how it was built. */
  readonly note?: string;
}

const plans = new Map<string, Built>();
const listeners = new Set<(built: Built) => void>();

/** Tells the panel of a sheet that stands in the workbook, with what there is to say whenever it is looked at. */
export function rememberBuilt(plan: Plan, sheet: string, note?: string): Built {
  const built = { sheet, plan, ...(note && { note }) };
  plans.set(sheet, built);
  for (const listener of [...listeners]) listener(built);
  return built;
}

/** The plan of a sheet, if this session knows it. */
export function builtOn(sheet: string): Built | undefined {
  return plans.get(sheet);
}

const emptied = new Set<() => void>();

/** Forgets all sheets: another workbook is open. */
export function forgetBuilt(): void {
  plans.clear();
  for (const listener of [...emptied]) listener();
}

/** Gives a function that ends the subscription. */
export function onForgotten(listener: () => void): () => void {
  emptied.add(listener);
  return () => emptied.delete(listener);
}

/** Gives a function that ends the subscription. */
export function onBuilt(listener: (built: Built) => void): () => void {
  listeners.add(listener);
  return () => listeners.delete(listener);
}
