import { type Book, type Place } from "../../cells/index.ts";
import type { Area } from "../../cells/index.ts";
import type { Host } from "../../hosts/index.ts";
import { readBook } from "../book/readBook.ts";
import type { Finding } from "./finding.ts";
import { withSteps, type IdentifiedList } from "./list.ts";
import { callsOurs } from "./ours.ts";
import { sharedOut } from "./threads.ts";
import { identifyEach, type IdentifyWork, type WorkerSays } from "./work.ts";

export interface IdentifyOptions {
  /** Of the sheet the cells to look at; without it all of them. */
  readonly within?: Area;
  readonly progress?: (done: number, of: number) => void;
  readonly signal?: AbortSignal;
}

/** Threads without work: they keep the library's rules for the next time. */
const idle: Worker[] = [];
const aWorker = (): Worker => idle.pop() ?? new Worker(new URL("./worker.ts", import.meta.url));

/** Reads a sheet with all it refers to, and finds out what its hand-typed formulas compute. Rejects with an AbortError when cancelled. */
export async function identifyOn(
  host: Host,
  sheet: string,
  { within, progress = () => undefined, signal }: IdentifyOptions = {},
): Promise<IdentifiedList> {
  const book = await readBook(host, sheet);
  signal?.throwIfAborted();
  const all = formulasWithin(book, sheet, within);
  const typed = all.filter(({ formula }) => !callsOurs(formula));
  const places = typed.map(({ place }) => place);
  const work: IdentifyWork = { sheets: book.sheets, names: book.names, places };
  const report = (done: number): void => progress(done, places.length);
  report(0);
  const findings = await (typeof Worker === "undefined"
    ? inTurns(work, report, signal)
    : inThreads(work, sharedOut(typed, navigator.hardwareConcurrency), report, signal));
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

/** The findings of all threads in the order of the places; a thread that fails or a call to cancel ends all of them. */
async function inThreads(
  { sheets, names, places }: IdentifyWork,
  shares: readonly (readonly Place[])[],
  report: (done: number) => void,
  signal: AbortSignal | undefined,
): Promise<readonly Finding[]> {
  const ended = new AbortController();
  const cancel = (): void => ended.abort(signal!.reason);
  signal?.addEventListener("abort", cancel);
  let done = 0;
  const each = shares.map((share) =>
    inWorker({ sheets, names, places: share }, (more) => report((done += more)), ended.signal),
  );
  try {
    const findings = (await Promise.all(each)).flat();
    const found = new Map(findings.map((finding) => [placeKey(finding.place), finding]));
    return places.map((place) => found.get(placeKey(place))!);
  } catch (error) {
    ended.abort(error);
    throw error;
  } finally {
    signal?.removeEventListener("abort", cancel);
  }
}

const placeKey = ({ row, column }: Place): string => `${row},${column}`;

function inWorker(
  work: IdentifyWork,
  report: (more: number) => void,
  signal: AbortSignal,
): Promise<readonly Finding[]> {
  return new Promise((resolve, reject) => {
    const worker = aWorker();
    const findings: Finding[] = [];
    const listening = new AbortController();
    const fail = (error: Error): void => {
      listening.abort();
      worker.terminate();
      reject(error);
    };
    const { signal: until } = listening;
    signal.addEventListener("abort", () => fail(signal.reason as Error), { signal: until });
    const hear = ({ data }: MessageEvent<WorkerSays>): void => {
      if (data.kind === "found") {
        findings.push(...data.findings);
        report(data.findings.length);
      } else if (data.kind === "done") {
        listening.abort();
        idle.push(worker);
        resolve(findings);
      } else fail(new Error(data.why));
    };
    worker.addEventListener("message", hear, { signal: until });
    const broken = ({ message }: ErrorEvent): void => fail(new Error(message || "the worker could not be started"));
    worker.addEventListener("error", broken, { signal: until });
    worker.postMessage(work);
  });
}
