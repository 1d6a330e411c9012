import type { Tool } from "./tool.ts";

/** The checker's tools in the order in which a check goes. */
export const tools: readonly Tool[] = [
];
