import { isKnownTemplate } from "../../src/templates/offices.ts";
import { onOfficeTemplates } from "./loaded.ts";

/** A sheet that no template known here built. */
interface Sheet<Head extends { readonly templateId: string }> {
  /** Resolves when the templates kept and served are read. */
  readonly read: () => Promise<void>;
  /** What it says of a template that is not known here; undefined where it says nothing of one. */
  readonly missing: () => Promise<Head | undefined>;
  /** Whether a template known now built it. */
  readonly isBuilt: () => Promise<boolean>;
}

interface Told<Head> {
  /** No template built it, or that of `head`, which is to be loaded. */
  readonly found: (head: Head | undefined) => void;
  /** Its template is known now; told once, and nothing after it. */
  readonly known: () => void;
  readonly failed: (error: unknown) => void;
}

/**
 * Looks at the sheet once the templates of offices are read, and follows what is loaded after that. Its template may have
 * come since somebody found it unknown. Gives a function that ends it.
 */
export function followMissing<Head extends { readonly templateId: string }>(
  sheet: Sheet<Head>,
  { found, known, failed }: Told<Head>,
): () => void {
  let isDone = false;
  let head: Head | undefined;
  const finish = (): void => {
    if (isDone) return;
    isDone = true;
    known();
  };
  const end = onOfficeTemplates(() => {
    if (head && isKnownTemplate(head.templateId)) finish();
  });
  const look = async (): Promise<void> => {
    await sheet.read();
    head = await sheet.missing();
    if (head ? isKnownTemplate(head.templateId) : await sheet.isBuilt()) return finish();
    if (!isDone) found(head);
  };
  look().catch((error: unknown) => {
    if (!isDone) failed(error);
  });
  return () => {
    isDone = true;
    end();
  };
}
