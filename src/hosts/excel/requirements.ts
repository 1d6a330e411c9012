/** An API set of the spreadsheet program, as `Office.context.requirements.isSetSupported(set, version)` asks for it. */
export interface ApiSet {
  readonly set: string;
  readonly version: string;
  /** What it is for: told to the user where it is missing. */
  readonly purpose: string;
}

/** An API set that nothing works without, with the first versions of the program that have it. */
export interface RequiredSet extends ApiSet {
  /** Subscription on Windows, and Mac; from the maker's published tables of requirement sets. */
  readonly since: { readonly windows: string; readonly mac: string };
}

/** What building, reading and protecting sheets cannot do without. */
export const requiredSets: readonly RequiredSet[] = [
  {
    set: "CustomFunctionsRuntime",
    version: "1.2",
    since: { windows: "1909", mac: "16.34" },
    purpose: "the worksheet functions",
  },
  {
    set: "SharedRuntime",
    version: "1.1",
    since: { windows: "2002", mac: "16.35" },
    purpose: "worksheet functions and panel in one program",
  },
  {
    set: "ExcelApi",
    version: "1.9",
    since: { windows: "1903", mac: "16.24" },
    purpose: "building check sheets: areas of several parts, print set-up, selection on any sheet",
  },
];

/** What makes more possible where it is present. */
export const optionalSets = {
  outline: { set: "ExcelApi", version: "1.10", purpose: "an outline that folds the workings away" },
  spills: { set: "ExcelApi", version: "1.12", purpose: "results that fill several cells" },
  dependants: { set: "ExcelApi", version: "1.13", purpose: "showing which cells use a cell" },
} as const satisfies Record<string, ApiSet>;
