import type { Template, WhichConfigurations } from "../../src/sheet/index.ts";
import type { Answer, Question } from "./checkWorker.ts";

export interface Progress {
  /** So many configurations are checked. */
  readonly progress: (done: number, of: number) => void;
  readonly signal: AbortSignal;
}

/**
 * Everything that is wrong with a template, in its usual configurations or in all kinds of them: seconds for each, beside
 * the page, which answers meanwhile. Rejects when it is cancelled.
 */
export function checkInSteps(
  template: Template,
  which: WhichConfigurations,
  { progress, signal }: Progress,
): Promise<readonly string[]> {
  signal.throwIfAborted();
  const worker = new Worker(new URL("./checkWorker.ts", import.meta.url));
  return new Promise<readonly string[]>((resolve, reject) => {
    signal.addEventListener("abort", () => reject(signal.reason as Error), { once: true });
    worker.onerror = (event) => {
      event.preventDefault();
      reject(new Error(event.message || "the part of this page that checks templates could not be loaded"));
    };
    worker.onmessage = ({ data }: MessageEvent<Answer>) => {
      if ("done" in data) progress(data.done, data.of);
      else if ("problems" in data) resolve(data.problems);
      else reject(new Error(data.failed));
    };
    const question: Question = { template, which };
    worker.postMessage(question);
  }).finally(() => worker.terminate());
}
