/** The only door to sheets: templates, plans, lint. */
export * from "./plan.ts";
export type * from "./template.ts";
