import type { Tool } from "./tool.ts";

/** The checker's tools in the order in which a check goes. */
export const tools: readonly Tool[] = [
  { id: "compare", title: "Compare", line: "with what the template builds today", load: () => import("./compare/compareView.tsx").then((m) => m.CompareView) },
  { id: "signOff", title: "Sign off", line: "marks of what was checked, and revisions", load: () => import("./signOff/signOffView.tsx").then((m) => m.SignOffView) },
  { id: "prove", title: "Prove", line: "the installation, with every published check on a sheet to file", load: () => import("./prove/proveView.tsx").then((m) => m.ProveView) },
  { id: "handOut", title: "Hand-out copy", line: "values, with the formulas as text, for people without the functions", load: () => import("./handOut/handOutView.tsx").then((m) => m.HandOutView) },
  { id: "whatIf", title: "What if", line: "an input were another: which verdicts move, and which inputs matter", load: () => import("./whatIf/whatIfView.tsx").then((m) => m.WhatIfView) },
];
