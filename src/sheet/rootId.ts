import type { Template } from "./template.ts";

/** The id of the shipped template that an office's was made from; its own for a shipped one. */
export function rootId({ id, madeFrom }: Pick<Template, "id" | "madeFrom">): string {
  return madeFrom?.template ?? id;
}
