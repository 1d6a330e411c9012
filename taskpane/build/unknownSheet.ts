import { useEffect, useState } from "preact/hooks";
import type { Host, Selection } from "../../src/hosts/index.ts";
import { builtOn } from "../built.ts";
import type { Engine } from "../engine.ts";
import { onOfficeTemplates } from "../templates/loaded.ts";

/** A check sheet whose cells stand otherwise than its template builds them today. */
interface OlderSheet {
  readonly sheet: string;
  readonly title: string;
  readonly version: string;
  readonly today: string;
}

/** A check sheet whose template is not known here, as that of an office which is not loaded. */
interface SheetWithout {
  readonly sheet: string;
  readonly title?: undefined;
}

export type UnknownSheet = OlderSheet | SheetWithout;

const nameOfVersion = "kb_functionsversion";

/** What the selected sheet says it is, where the panel has no plan of it; undefined for any other sheet. */
async function lookAt(host: Host, engine: Engine, sheet: string): Promise<UnknownSheet | undefined> {
  const names = await host.namesOn(sheet);
  if (!names.some(({ name }) => name.toLowerCase() === nameOfVersion)) return undefined;
  const found = await engine.recognise(host, sheet);
  if (!found) return (await engine.missingTemplate(host, sheet)) && { sheet };
  if (found.template.source || found.head.templateVersion === found.template.version) return undefined;
  const { template, head } = found;
  return { sheet, title: template.title, version: head.templateVersion, today: template.version };
}

/**
 * The selected sheet, where it is a check sheet of another version that the panel has no plan of, and what forgets it;
 * the one before stays while it is held.
 */
export function useUnknownSheet(
  host: Host,
  engine: Engine,
  isHeld: () => boolean,
): readonly [found: UnknownSheet | undefined, forget: () => void] {
  const [found, setFound] = useState<UnknownSheet>();
  useEffect(() => {
    let live = true;
    let turn = 0;
    let last: string | undefined;
    const seen = new Map<string, UnknownSheet | undefined>();
    const look = async ({ sheet }: Pick<Selection, "sheet">): Promise<void> => {
      last = sheet;
      if (isHeld()) return;
      const mine = (turn += 1);
      if (builtOn(sheet)) return setFound(undefined);
      if (!seen.has(sheet)) seen.set(sheet, await lookAt(host, engine, sheet));
      if (live && mine === turn && !isHeld()) setFound(seen.get(sheet));
    };
    // A sheet that cannot be read has its message from the result; here it is just not offered.
    const tell = (error: unknown): void => console.warn(error);
    const ends = [
      host.onSelection((at) => void look(at).catch(tell)),
      // Once another template is known, a sheet may be known too.
      onOfficeTemplates(() => {
        seen.clear();
        if (last !== undefined) void look({ sheet: last }).catch(tell);
      }),
    ];
    return () => {
      live = false;
      for (const end of ends) end();
    };
  }, [host, engine]);
  return [found, () => setFound(undefined)];
}
