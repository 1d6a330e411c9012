/** Checks a template beside the page, which answers meanwhile. */
import { lintWithPauses, type Template, type WhichConfigurations } from "../../src/sheet/index.ts";
import { whyNot } from "../loading.ts";

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
    (error: unknown) => answer({ failed: whyNot(error) }),
  );
};
