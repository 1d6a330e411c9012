import type { Tool } from "./tool.ts";

/** The checker's tools in the order in which a check goes. */
export const tools: readonly Tool[] = [
  { id: "compare", title: "Compare", line: "with what the template builds today", load: () => import("./compare/compareView.tsx").then((m) => m.CompareView) },
  { id: "signOff", title: "Sign off", line: "marks of what was checked, and revisions", load: () => import("./signOff/signOffView.tsx").then((m) => m.SignOffView) },
];
