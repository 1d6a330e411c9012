/** Checks a template beside the page, which answers meanwhile. */
import { reasonOf } from "../../src/core/index.ts";
import { lintWithPauses, type Template, type WhichConfigurations } from "../../src/sheet/index.ts";

export interface Question {
  readonly template: Template;
  readonly which: WhichConfigurations;
}

export type Answer =
  | { readonly done: number; readonly of: number }
  | { readonly problems: readonly string[] }
  | { readonly failed: string };

const answer = (what: Answer): void => self.postMessage(what);

self.onmessage = ({ data: { template, which } }: MessageEvent<Question>): void => {
  const told = (done: number, of: number): Promise<void> => {
    answer({ done, of });
    return Promise.resolve();
  };
  lintWithPauses(template, told, which).then(
    (problems) => answer({ problems }),
    (error: unknown) => answer({ failed: reasonOf(error) }),
  );
};
