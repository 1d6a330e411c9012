import type { Template } from "./template.ts";

/** The id of the shipped template that an office's was made from; its own for a shipped one. */
export function rootId({ id, madeFrom }: Pick<Template, "id" | "madeFrom">): string {
  return madeFrom?.template ?? id;
}

type Identified = Pick<Template, "id" | "madeFrom">;
/** Whether a template is for post-tensioned members; the others are for pre-tensioned ones. */
export const isPost = (template: Identified): boolean => rootId(template).startsWith("post");
/** Whether a template is to EN 1992; the others are to IS 1343. */
export const isEn = (template: Identified): boolean => rootId(template).includes("en1992");
