import type { CellContent } from "../host/host.ts";

/** What every cell shows, by row and column of the plan. */
export type Values = readonly (readonly CellContent[])[];
