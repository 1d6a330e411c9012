import { openExcel, type ExcelHost } from "../../src/hosts/index.ts";
import { FakeExcel, type FakeOptions } from "./excelFake/index.ts";

export interface OpenFake {
  readonly excel: FakeExcel;
  readonly host: ExcelHost;
  readonly reported: readonly unknown[];
  /** How often the host waited. */
  readonly waited: () => number;
}

/** The strict fake with the host upon it; waiting takes no time. */
export function openFake(options: FakeOptions): OpenFake {
  const excel = new FakeExcel(options);
  const reported: unknown[] = [];
  let waits = 0;
  const host = openExcel({
    run: excel.run,
    supports: excel.supports,
    report: (error) => reported.push(error),
    pause: () => {
      waits++;
      return new Promise((resolve) => setImmediate(resolve));
    },
  });
  return { excel, host, reported, waited: () => waits };
}
