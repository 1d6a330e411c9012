/** Stands in for the program's script in the add-in's page: the strict stand-in of the workbook, computed by the test outside the page. */
import { changeCell, FakeExcel } from "../../hosts/excelFake/index.ts";
import { resultsOf, toText } from "./wire.ts";

declare global {
  interface Window {
    readonly computeWorkbook: (workbook: string) => Promise<string>;
    /** An API set that this program has not. */
    programLacks?: string;
    /** Sheets that stand in the workbook beside the first. */
    programSheets?: readonly string[];
    /** What the page has done so far, and a cell to fill, for the test. */
    program: {
      readonly associated: readonly string[];
      readonly startup: readonly string[];
      readonly type: (row: number, column: number, formula: string) => void;
      /** From now on these operations fail. */
      readonly refuse: (labels: readonly string[]) => void;
    };
  }
}

const excel = new FakeExcel({
  calculator: async (workbook) => resultsOf(await window.computeWorkbook(toText(workbook))),
});
const [first] = excel.workbook.sheets;
for (const name of window.programSheets ?? [])
  excel.workbook.sheets.push({ ...structuredClone(first!), id: `{${name}}`, name });
const associated: string[] = [];
const startup: string[] = [];

window.program = {
  associated,
  startup,
  type: (row, column, formula) =>
    changeCell(excel.workbook.sheets[0]!, row, column, (cell) => {
      cell.formula = formula;
    }),
  refuse: (labels) => {
    excel.watch = (label) => {
      if (labels.includes(label)) throw new Error(`no ${label}`);
    };
  },
};
Object.assign(window, {
  // As the program's own script begins: the error class and the codes come with a later part.
  CustomFunctions: { associate: (id: string) => associated.push(id) },
  Excel: { run: excel.run },
  Office: {
    HostType: { Excel: "Excel" },
    StartupBehavior: { load: "Load" },
    onReady: () => Promise.resolve({ host: "Excel" }),
    addin: {
      setStartupBehavior: (behavior: string) => {
        startup.push(behavior);
        return Promise.resolve();
      },
    },
    context: {
      requirements: {
        isSetSupported: (set: string, version: string) => set !== window.programLacks && excel.supports(set, version),
      },
      officeTheme: { isDarkTheme: window.matchMedia("(prefers-color-scheme: dark)").matches },
    },
  },
});
