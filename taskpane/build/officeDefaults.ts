import type { OfficeDefaults } from "../../src/office/index.ts";
import type { Template } from "../../src/sheet/index.ts";
import type { Engine } from "../engine.ts";
import { fetchBeside } from "../fetchBeside.ts";
import { whyNot } from "../loading.ts";
import { startOfficeTemplates } from "../templates/loaded.ts";

const key = "kernbook office defaults";
/** Kept in place of a file where somebody wants none of the defaults that the office serves. */
const none = "none";
/** Beside the page of the panel. */
export const servedName = "defaults.json";
/** Larger than any such file. */
const largest = 1_000_000;

/** Loads when it is first asked for. */
const office = () => import("../../src/office/index.ts");

/** Storage that a browser may refuse; without it the defaults hold until the page is closed. */
function storage(): Storage | undefined {
  try {
    return globalThis.localStorage;
  } catch (error) {
    if (error instanceof DOMException) return undefined;
    throw error;
  }
}

type Templates = Pick<Engine, "templates" | "choosingTemplates" | "linkedTemplates" | "template">;

/** Every template, those of offices too: defaults are for what any of them asks. */
async function allTemplates(engine: Templates): Promise<readonly Template[]> {
  await startOfficeTemplates();
  const { templates, choosingTemplates, linkedTemplates, template } = engine;
  return Promise.all([...templates, ...choosingTemplates, ...linkedTemplates].map(({ id }) => template(id)));
}

/** Reads a file of defaults and keeps it in this browser if it is still wanted then. Throws where it is refused. */
export async function keepOffice(
  bytes: ArrayBuffer,
  engine: Templates,
  isWanted: () => boolean,
): Promise<OfficeDefaults> {
  if (bytes.byteLength > largest)
    throw new Error(`the file has ${bytes.byteLength} bytes; at most ${largest} are read`);
  const { readDefaults, textOfBytes } = await office();
  const text = textOfBytes(new Uint8Array(bytes));
  const defaults = readDefaults(text, await allTemplates(engine));
  if (isWanted()) storage()?.setItem(key, text);
  return defaults;
}

/** Whose choice the defaults are: a file chosen in this browser, none wanted here, or what the office serves. */
export type Origin = "file" | "none" | "served";

export function origin(): Origin {
  const text = storage()?.getItem(key);
  if (text === null || text === undefined) return "served";
  return text === none ? "none" : "file";
}

const fetchServed = (): Promise<string | undefined> => fetchBeside(servedName);

/**
 * The defaults to begin with: the file kept in this browser; without one, and unless none are wanted here, those that
 * the office serves. Undefined where there are none. Throws where they are refused.
 */
export async function foundOffice(engine: Templates, served = fetchServed): Promise<OfficeDefaults | undefined> {
  const from = origin();
  if (from === "none") return undefined;
  const text = from === "file" ? storage()?.getItem(key) : await served();
  // An address without defaults serves the word null, so that no request there fails.
  if (text === null || text === undefined || text.trim() === "null") return undefined;
  const [{ readDefaults }, templates] = await Promise.all([office(), allTemplates(engine)]);
  return readDefaults(text, templates);
}

/** No defaults, of neither this browser nor the office. */
export function wantNone(): void {
  storage()?.setItem(key, none);
}

/** From now on what the office serves. */
export function wantServed(): void {
  storage()?.removeItem(key);
}

/** With another duct or jack; an empty name chooses none. */
export function chosenByName(defaults: OfficeDefaults, what: "duct" | "jack", name: string): OfficeDefaults {
  return defaults.choosing({ [what]: name === "" ? undefined : name });
}

/** The messages of a refusal. */
export function problemsOf(error: unknown): readonly string[] {
  return error instanceof Error && "messages" in error && Array.isArray(error.messages)
    ? (error.messages as readonly string[]).slice(0, 20)
    : [whyNot(error)];
}
