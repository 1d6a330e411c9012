import type { Swept } from "../../src/hosts/index.ts";

const listed = (names: readonly string[]): string =>
  names.length === 1 ? `The sheet ${names[0]}` : `The sheets ${names.join(", ")}`;

/** What a sweep did and found, in words; empty where there is nothing to say. */
export function sweptText({ gone, unfinished }: Pick<Swept, "gone" | "unfinished">): string {
  const one = gone.length === 1;
  const removed =
    gone.length === 0
      ? []
      : [
          `${listed(gone)} ${one ? "was" : "were"} removed: ${one ? "it was" : "they were"} unfinished, ` +
            `left by a build or an evaluation that broke off.`,
        ];
  const single = unfinished.length === 1;
  const begun =
    unfinished.length === 0
      ? []
      : [
          `${listed(unfinished)} ${single ? "is" : "are"} unfinished and less than an hour old: somebody who works in ` +
            `this workbook may be building ${single ? "it" : "them"} now. If nobody is, delete ${single ? "it" : "them"}; ` +
            "otherwise that happens here after an hour.",
        ];
  return [...removed, ...begun].join(" ");
}
