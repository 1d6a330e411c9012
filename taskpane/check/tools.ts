import type { Tool } from "./tool.ts";

/** The checker's tools in the order in which a check goes. */
export const tools: readonly Tool[] = [
  { id: "compare", title: "Compare", load: () => import("./compare/compareView.tsx").then((m) => m.CompareView) },
  { id: "identify", title: "Identify", load: () => import("./identify/identifyView.tsx").then((m) => m.IdentifyView) },
  { id: "whatIf", title: "What if", load: () => import("./whatIf/whatIfView.tsx").then((m) => m.WhatIfView) },
  { id: "signOff", title: "Sign off", load: () => import("./signOff/signOffView.tsx").then((m) => m.SignOffView) },
  { id: "prove", title: "Prove", load: () => import("./prove/proveView.tsx").then((m) => m.ProveView) },
  { id: "record", title: "Record", load: () => import("./record/recordView.tsx").then((m) => m.RecordView) },
  { id: "handOut", title: "Hand-out copy", load: () => import("./handOut/handOutView.tsx").then((m) => m.HandOutView) },
  { id: "report", title: "Report", load: () => import("./report/reportView.tsx").then((m) => m.ReportView) },
];
