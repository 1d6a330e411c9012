import { reasonOf } from "../../core/index.ts";
import type { Finding } from "./finding.ts";
import { identifyEach, type IdentifyWork, type WorkerSays } from "./work.ts";

/** So often (in ms) findings are handed over. */
const pause = 100;

const say = (what: WorkerSays): void => self.postMessage(what);

self.addEventListener("message", ({ data }: MessageEvent<IdentifyWork>) => {
  let waiting: Finding[] = [];
  let said = Date.now();
  try {
    for (const finding of identifyEach(data)) {
      waiting.push(finding);
      if (Date.now() - said < pause) continue;
      say({ kind: "found", findings: waiting });
      waiting = [];
      said = Date.now();
    }
    say({ kind: "found", findings: waiting });
    say({ kind: "done" });
  } catch (error) {
    say({ kind: "failed", why: reasonOf(error) });
  }
});
