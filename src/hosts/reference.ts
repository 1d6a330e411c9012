import { parseA1Ref } from "@borgar/fx";
import type { Area } from "../sheet/index.ts";

interface Read {
  readonly context?: readonly string[];
  readonly range?: { readonly top: number | null; readonly left: number | null; readonly bottom: number | null; readonly right: number | null };
}

/** The cells of a reference that says its sheet, such as `='My beam'!$D$5:$D$9`; undefined where it lost them (`#REF!`) or means something else. */
export function areaOfReference(reference: string): (Area & { readonly sheet: string }) | undefined {
  const read = parseA1Ref(reference.replace(/^=/, "")) as Read | undefined;
  const sheet = read?.context?.at(-1);
  const { top = null, left = null, bottom = null, right = null } = read?.range ?? {};
  if (sheet === undefined || top === null || left === null || bottom === null || right === null) return undefined;
  return { sheet, row: top, column: left, rows: bottom - top + 1, columns: right - left + 1 };
}
