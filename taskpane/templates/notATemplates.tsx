import { useEffect, useRef, useState } from "preact/hooks";
import { missingTemplate, recognise } from "../../src/checker/index.ts";
import type { Host } from "../../src/hosts/index.ts";
import { notATemplates } from "../check/useSheet.ts";
import { ChooseFiles } from "./chooseFiles.tsx";
import { startOfficeTemplates } from "./loaded.ts";
import { followMissing } from "./missing.ts";

interface Props {
  /** Of the elements: unique in the panel. */
  readonly id: string;
  readonly host: Host;
  /** A sheet that no template known here built. */
  readonly sheet: string;
  /** Its template is loaded now. */
  readonly again: () => void;
}

type Missing = NonNullable<Awaited<ReturnType<typeof missingTemplate>>>;

/** "the template my-beam, version 1.0.0, of Alder Office" */
export const neededText = ({ templateId, templateVersion, office }: Missing): string =>
  `the template ${templateId}, version ${templateVersion}` + (office === undefined ? "" : `, of ${office}`);

/** Why a tool does nothing for a sheet: no template built it, or that of an office which is to be loaded first. */
export function NotATemplates({ id, host, sheet, again }: Props) {
  const [missing, setMissing] = useState<{ readonly of: string; readonly head: Missing | undefined }>();
  const latest = useRef(again);
  latest.current = again;
  useEffect(
    () =>
      followMissing(
        {
          read: startOfficeTemplates,
          missing: () => missingTemplate(host, sheet),
          isBuilt: async () => (await recognise(host, sheet)) !== undefined,
        },
        {
          found: (head) => setMissing({ of: sheet, head }),
          known: () => latest.current(),
          // What cannot be read is no sheet of a template's either.
          failed: (error) => {
            console.warn(error);
            setMissing({ of: sheet, head: undefined });
          },
        },
      ),
    [host, sheet],
  );
  if (missing?.of !== sheet) return null;
  const { head } = missing;
  if (!head)
    return (
      <p class="kb-problem">
        “{sheet}”: {notATemplates}
      </p>
    );
  return (
    <section class="kb-missing" aria-label="Template of the sheet">
      <p class="kb-problem">
        “{sheet}” was built with {neededText(head)}, which is not loaded here. The sheet computes; what checks it needs
        that template.
      </p>
      <ChooseFiles id={`kb-missing-${id}`} label="Load its file" />
    </section>
  );
}
