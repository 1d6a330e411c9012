import { type Book, type Place } from "../../cells/index.ts";
import type { Area } from "../../cells/index.ts";
import type { Host } from "../../hosts/index.ts";
import { readBook } from "../book/readBook.ts";
import type { Finding } from "./finding.ts";
import { withSteps, type IdentifiedList } from "./list.ts";
import { callsOurs } from "./ours.ts";
import { identifyEach, type IdentifyWork, type WorkerSays } from "./work.ts";

export interface IdentifyOptions {
  /** Of the sheet the cells to look at; without it all of them. */
  readonly within?: Area;
  readonly progress?: (done: number, of: number) => void;
  readonly signal?: AbortSignal;
}

/** The thread that does the work; a page that has none does it itself, a formula at a time. */
const newWorker = (): Worker => new Worker(new URL("./worker.ts", import.meta.url));

/** Reads a sheet with all it refers to, and finds out what its hand-typed formulas compute. Rejects with an AbortError when cancelled. */
export async function identifyOn(
  host: Host,
  sheet: string,
  { within, progress = () => undefined, signal }: IdentifyOptions = {},
): Promise<IdentifiedList> {
  const book = await readBook(host, sheet);
  signal?.throwIfAborted();
  const all = formulasWithin(book, sheet, within);
  const places = all.filter(({ formula }) => !callsOurs(formula)).map(({ place }) => place);
  const work: IdentifyWork = { sheets: book.sheets, names: book.names, places };
  const report = (done: number): void => progress(done, places.length);
  report(0);
  const findings = await (typeof Worker === "undefined"
    ? inTurns(work, report, signal)
    : inWorker(work, report, signal));
  return { sheet, findings: withSteps(findings), ours: all.length - places.length };
}

/** Cells of a sheet with formulas, row by row. */
function formulasWithin(book: Book, sheet: string, within: Area | undefined) {
  const number = book.sheetNumber(sheet);
  const inside = ({ row, column }: Place): boolean =>
    !within ||
    (row >= within.row &&
      row < within.row + within.rows &&
      column >= within.column &&
      column < within.column + within.columns);
  return [...book.formulas.cells.values()]
    .filter((cell) => cell.sheet === number)
    .sort((a, b) => a.key - b.key)
    .map(({ row, column, formula }) => ({ place: { sheet, row, column }, formula }))
    .filter(({ place }) => inside(place));
}

async function inTurns(
  work: IdentifyWork,
  report: (done: number) => void,
  signal: AbortSignal | undefined,
): Promise<readonly Finding[]> {
  const findings: Finding[] = [];
  for (const finding of identifyEach(work)) {
    findings.push(finding);
    report(findings.length);
    await new Promise((next) => setTimeout(next, 0));
    signal?.throwIfAborted();
  }
  return findings;
}

function inWorker(
  work: IdentifyWork,
  report: (done: number) => void,
  signal: AbortSignal | undefined,
): Promise<readonly Finding[]> {
  return new Promise((resolve, reject) => {
    const worker = newWorker();
    const findings: Finding[] = [];
    const stop = (): void => {
      worker.terminate();
      signal?.removeEventListener("abort", cancel);
    };
    const cancel = (): void => {
      stop();
      reject(signal!.reason as Error);
    };
    signal?.addEventListener("abort", cancel);
    worker.addEventListener("message", ({ data }: MessageEvent<WorkerSays>) => {
      if (data.kind === "found") {
        findings.push(...data.findings);
        report(findings.length);
        return;
      }
      stop();
      if (data.kind === "done") resolve(findings);
      else reject(new Error(data.why));
    });
    worker.addEventListener("error", ({ message }) => {
      stop();
      reject(new Error(message || "the worker could not be started"));
    });
    worker.postMessage(work);
  });
}
