import type { BookNames, Place, Snapshot } from "../../cells/index.ts";
import { bookOfSheets } from "../book/bookOfSheets.ts";
import type { Finding } from "./finding.ts";
import { Identifier } from "./identify.ts";

/** What is handed to whoever does the work, in whatever thread. */
export interface IdentifyWork {
  readonly sheets: readonly Snapshot[];
  readonly names: BookNames;
  readonly places: readonly Place[];
}

/** The findings one after the other. */
export function* identifyEach({ sheets, names, places }: IdentifyWork): Generator<Finding> {
  const identifier = new Identifier(bookOfSheets(sheets, names));
  for (const place of places) yield identifier.identify(place);
}

/** What the worker says. */
export type WorkerSays =
  | { readonly kind: "found"; readonly findings: readonly Finding[] }
  | { readonly kind: "done" }
  | { readonly kind: "failed"; readonly why: string };
