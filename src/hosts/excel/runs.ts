/** `Excel.run` of the spreadsheet program, handed in so that nothing else reaches for it. */
export interface ExcelRun {
  <T>(batch: (context: Excel.RequestContext) => Promise<T>): Promise<T>;
  /** Works on objects of an earlier run, such as an event handler. */
  <T>(context: OfficeExtension.ClientRequestContext, batch: (context: Excel.RequestContext) => Promise<T>): Promise<T>;
}

export interface ExcelDependencies {
  readonly run: ExcelRun;
  /** Is this API set there? `Office.context.requirements.isSetSupported`. */
  readonly supports: (set: string, version: string) => boolean;
  /** Told of errors nobody waits for, such as those in an event. */
  readonly report: (error: unknown) => void;
  /** Waits that many milliseconds. */
  readonly pause: (milliseconds: number) => Promise<void>;
}

const said: Readonly<Record<string, string>> = {
  InvalidOperationInCellEditMode:
    "A cell is being edited. Finish it with Enter (or leave it with Escape), then try again.",
  AccessDenied: "The workbook or the sheet does not allow this: it is protected or opened for reading only.",
};

/** The code of an error of the spreadsheet program; undefined for any other error. */
export function codeOf(error: unknown): string | undefined {
  const code = typeof error === "object" && error !== null && "code" in error ? error.code : undefined;
  return typeof code === "string" ? code : undefined;
}

/** Where the program's own words say too little, ours, with its error as the cause. */
export function explained(error: unknown): unknown {
  const words = said[codeOf(error) ?? ""];
  return words === undefined ? error : Object.assign(new Error(words, { cause: error }), { code: codeOf(error) });
}

/** Clean-up must not be left undone for one fault: it is tried twice, and the first fault reported. */
export async function twice<T>(work: () => Promise<T>, report: ExcelDependencies["report"]): Promise<T> {
  try {
    return await work();
  } catch (error) {
    report(error);
    return await work();
  }
}
