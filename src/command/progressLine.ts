import { cut } from "../cells/index.ts";
import { screenWidth } from "./wrap.ts";

/** Without a screen, lines come no more often than this, so that a log stays short. */
const pause = 10_000;

/** How far something is, as one line that the next replaces on a screen; in a log a line now and then. */
export function progressLine(stream: NodeJS.WriteStream): {
  readonly show: (line: string) => void;
  readonly clear: () => void;
} {
  let standing = false;
  let last = -Infinity;
  const clear = (): void => {
    if (standing) stream.write(`\r${" ".repeat(screenWidth)}\r`);
    standing = false;
  };
  return {
    clear,
    show: (line) => {
      if (stream.isTTY) {
        stream.write(`\r${cut(line, screenWidth).padEnd(screenWidth)}`);
        standing = true;
        return;
      }
      if (performance.now() - last < pause) return;
      last = performance.now();
      stream.write(`${line}\n`);
    },
  };
}
