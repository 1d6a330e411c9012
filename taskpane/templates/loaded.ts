/**
 * The templates of offices in this panel, for all of its views: what is loaded, what was refused, and who is told of a
 * change. Files are read and kept by `reading.ts`, which is fetched when there is something to read.
 */
import type { Template } from "../../src/sheet/index.ts";
import { addOfficeTemplate, officeTemplates, removeOfficeTemplate } from "../../src/templates/offices.ts";
import { whyNot } from "../loading.ts";

/** `file`: chosen here and kept in this browser; `folder`: served by the office beside the panel. */
export type From = "file" | "folder";

/** A template of an office that was read and found good. */
export interface Loaded {
  readonly from: From;
  /** The name of its file. */
  readonly file: string;
  readonly template: Template;
}

/** A file that was not taken, and why. */
export interface NotTaken {
  readonly file: string;
  readonly reasons: readonly string[];
}

export interface OfficeTemplates {
  /** In use: one of each id. */
  readonly loaded: readonly Loaded[];
  /** Good, but another of the same id is newer. */
  readonly older: readonly Loaded[];
  readonly notTaken: readonly NotTaken[];
  /** Those kept in this browser and those served are being read. */
  readonly isReading: boolean;
}

/** "1.10.0" after "1.9.2". */
export function byVersion(a: string, b: string): number {
  const [one, other] = [a, b].map((version) => version.split(".").map(Number));
  const at = one!.findIndex((part, i) => part !== other![i]);
  return at < 0 ? 0 : one![at]! - other![at]!;
}

/** Of each id the newest version; of two equal ones that of the folder, which the office keeps. */
export function inUse(all: readonly Loaded[]): Pick<OfficeTemplates, "loaded" | "older"> {
  const best = new Map<string, Loaded>();
  for (const one of all) {
    const { id, version } = one.template;
    const known = best.get(id);
    const newer = known ? byVersion(version, known.template.version) : 1;
    if (newer > 0 || (newer === 0 && one.from === "folder")) best.set(id, one);
  }
  const loaded = [...best.values()];
  return { loaded, older: all.filter((one) => !loaded.includes(one)) };
}

let all: readonly Loaded[] = [];
let state: OfficeTemplates = { loaded: [], older: [], notTaken: [], isReading: false };
let starting: Promise<void> | undefined;
const listeners = new Set<() => void>();

export const officeState = (): OfficeTemplates => state;

/** Told of every change. Gives a function that ends the subscription. */
export function onOfficeTemplates(listener: () => void): () => void {
  listeners.add(listener);
  return () => listeners.delete(listener);
}

function say(change: Partial<OfficeTemplates>): void {
  state = { ...state, ...change };
  for (const listener of [...listeners]) listener();
}

let settling = Promise.resolve();

/** What is known to the rest of the program follows what is in use; one change after the other. */
function settle(): Promise<void> {
  settling = settling.catch(() => undefined).then(settleNow);
  return settling;
}

async function settleNow(): Promise<void> {
  const { loaded, older } = inUse(all);
  const wanted = new Set(loaded.map(({ template }) => template));
  const known = new Set(officeTemplates());
  for (const template of known) if (!wanted.has(template)) removeOfficeTemplate(template.id);
  for (const template of wanted) if (!known.has(template)) await addOfficeTemplate(template);
  say({ loaded, older });
}

/**
 * Puts a template that was read among the others; one of the same id and the same origin makes way. Throws where what
 * belongs to it could not be fetched: then all is as it was.
 */
export async function addLoaded(one: Loaded): Promise<void> {
  const before = all;
  all = [...all.filter(({ from, template }) => from !== one.from || template.id !== one.template.id), one];
  try {
    await settle();
  } catch (error) {
    all = before;
    await settle();
    throw error;
  }
  say({ notTaken: state.notTaken.filter(({ file }) => file !== one.file) });
}

export async function removeLoaded(one: Loaded): Promise<void> {
  all = all.filter((other) => other !== one);
  await settle();
}

export function addNotTaken(one: NotTaken): void {
  say({ notTaken: [...state.notTaken.filter(({ file }) => file !== one.file), one] });
}

export const forgetNotTaken = (): void => say({ notTaken: [] });

/** Reads what is kept and what is served, once; resolves when that is done, whatever came of it. */
export function startOfficeTemplates(
  read: () => Promise<void> = async () => (await import("./reading.ts")).readAtStart(),
): Promise<void> {
  starting ??= (async () => {
    say({ isReading: true });
    try {
      await read();
    } catch (error) {
      addNotTaken({ file: "Templates of the office", reasons: [whyNot(error)] });
    } finally {
      say({ isReading: false });
    }
  })();
  return starting;
}
