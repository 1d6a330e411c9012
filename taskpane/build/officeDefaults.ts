import type { OfficeDefaults } from "../../src/office/index.ts";
import type { Template } from "../../src/sheet/index.ts";
import type { Engine } from "../engine.ts";
import { whyNot } from "../loading.ts";
import { startOfficeTemplates } from "../templates/loaded.ts";

const key = "kernbook office defaults";
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

/** Every template, those of offices too: defaults are for what any of them asks. */
async function allTemplates(engine: Engine): Promise<readonly Template[]> {
  await startOfficeTemplates();
  const { templates, choosingTemplates, linkedTemplates, template } = engine;
  return Promise.all([...templates, ...choosingTemplates, ...linkedTemplates].map(({ id }) => template(id)));
}

/** Reads a file of defaults and keeps it in this browser if it is still wanted then. Throws where it is refused. */
export async function keepOffice(bytes: ArrayBuffer, engine: Engine, isWanted: () => boolean): Promise<OfficeDefaults> {
  if (bytes.byteLength > largest)
    throw new Error(`the file has ${bytes.byteLength} bytes; at most ${largest} are read`);
  const { readDefaults, textOfBytes } = await office();
  const text = textOfBytes(new Uint8Array(bytes));
  const defaults = readDefaults(text, await allTemplates(engine));
  if (isWanted()) storage()?.setItem(key, text);
  return defaults;
}

/** The defaults kept in this browser; undefined where there are none. Throws where this version refuses them. */
export async function keptOffice(engine: Engine): Promise<OfficeDefaults | undefined> {
  const text = storage()?.getItem(key);
  if (text === null || text === undefined) return undefined;
  const [{ readDefaults }, templates] = await Promise.all([office(), allTemplates(engine)]);
  return readDefaults(text, templates);
}

export function forgetOffice(): void {
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
