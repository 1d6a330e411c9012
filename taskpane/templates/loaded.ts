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
  /** Reads the file again, with its source as loaded now. Throws where it is refused. */
  readonly readAgain: () => Promise<Template>;
}

/** A file that was not taken, and why. */
export interface NotTaken {
  readonly file: string;
  readonly reasons: readonly string[];
  /** It is loaded, but could not be kept in this browser. */
  readonly isLoaded?: boolean;
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

/**
 * Told when other templates are in use than before, but not while those kept and served are being read. Gives a function
 * that ends the subscription.
 */
export function onOtherTemplates(listener: () => void): () => void {
  let before = state.loaded;
  return onOfficeTemplates(() => {
    const isOther = state.loaded !== before && !state.isReading;
    before = state.loaded;
    if (isOther) listener();
  });
}

/** Told of every change. Gives a function that ends the subscription. */
export function onOfficeTemplates(listener: () => void): () => void {
  listeners.add(listener);
  return () => listeners.delete(listener);
}

function say(change: Partial<OfficeTemplates>): void {
  state = { ...state, ...change };
  for (const listener of [...listeners]) listener();
}

let changing = Promise.resolve();

/** One change after the other. Throws where one fails: then all is as it was. */
function change(next: (now: readonly Loaded[]) => readonly Loaded[]): Promise<void> {
  changing = changing
    .catch(() => undefined)
    .then(async () => {
      const before = all;
      try {
        all = next(before);
        await settle();
      } catch (error) {
        all = before;
        await settle();
        throw error;
      }
    });
  return changing;
}

/** What is known to the rest of the program follows what is in use. */
async function settle(): Promise<void> {
  refuseWithoutSource(inUse(all).loaded);
  await makeKnown(inUse(all).loaded);
  const stale = inUse(all).loaded.filter(({ template }) => sourceNow(template) !== template.source?.template);
  for (const one of stale) {
    const again = await withSourceNow(one);
    all = all.map((other) => (other === one ? again : other));
  }
  await makeKnown(inUse(all).loaded);
  say(inUse(all));
}

async function makeKnown(loaded: readonly Loaded[]): Promise<void> {
  const wanted = new Set(loaded.map(({ template }) => template));
  const known = new Set(officeTemplates());
  for (const template of known) if (!wanted.has(template)) removeOfficeTemplate(template.id);
  for (const template of wanted) if (!known.has(template)) await addOfficeTemplate(template);
}

/** The template that a linked one takes its values from, in the version in use. */
function sourceNow({ source }: Template): Template | undefined {
  const own = officeTemplates().find(({ id }) => id === source?.template.id);
  return own ?? source?.template;
}

/** Throws where a template takes its values from one of an office that is no longer there. */
function refuseWithoutSource(loaded: readonly Loaded[]): void {
  const ids = new Set(loaded.map(({ template }) => template.id));
  for (const { template } of loaded) {
    const { source } = template;
    if (source?.template.office === undefined || ids.has(source.template.id)) continue;
    throw new Error(
      `“${template.title}” (${template.id}) takes its values from ${source.template.id}: remove ${template.id} first`,
    );
  }
}

async function withSourceNow(one: Loaded): Promise<Loaded> {
  try {
    return { ...one, template: await one.readAgain() };
  } catch (error) {
    const { id, source } = one.template;
    throw new Error(
      `${id} takes its values from ${source!.template.id} and could not be read again: ${whyNot(error)}`,
      {
        cause: error,
      },
    );
  }
}

const isSame = (a: Loaded, b: Loaded): boolean => a.from === b.from && a.template.id === b.template.id;

/**
 * Puts a template that was read among the others; one of the same id and the same origin makes way, and what takes its
 * values from it is read again. Throws where what belongs to it could not be fetched: then all is as it was.
 */
export async function addLoaded(one: Loaded): Promise<void> {
  await change((now) => [...now.filter((other) => !isSame(other, one)), one]);
  say({ notTaken: state.notTaken.filter(({ file }) => file !== one.file) });
}

/** Throws where another takes its values from it: then all is as it was. */
export async function removeLoaded(one: Loaded): Promise<void> {
  await change((now) => now.filter((other) => !isSame(other, one)));
  say({ notTaken: state.notTaken.filter(({ file, isLoaded }) => file !== one.file || !isLoaded) });
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
