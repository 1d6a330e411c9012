import { useEffect, useState } from "preact/hooks";
import type { Host } from "../../src/hosts/index.ts";
import { whyNot } from "../loading.ts";

/** The name of the sheet that is looked at, following the selection. */
export function useSheet(host: Host): { readonly sheet: string | undefined; readonly problem: string } {
  const [sheet, setSheet] = useState<string>();
  const [problem, setProblem] = useState("");
  useEffect(() => {
    let live = true;
    host.selection().then(
      (at) => {
        if (live && at) setSheet(at.sheet);
      },
      (error: unknown) => {
        if (live) setProblem(`The selection could not be read: ${whyNot(error)}. Select a cell.`);
      },
    );
    const end = host.onSelection((at) => {
      if (!live) return;
      setProblem("");
      setSheet(at.sheet);
    });
    return () => {
      live = false;
      end();
    };
  }, [host]);
  return { sheet, problem };
}

/** What to do where a sheet is none that a template built. */
export const notATemplates =
  "This sheet does not say at its head that a template of this version built it, or it is a hand-out " +
  "copy. Select a cell of a sheet built with Build; Trace and Hand-out copy work on any sheet; a " +
  "validation sheet is read under Prove.";
