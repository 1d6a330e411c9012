import type { MathJsInstance } from "mathjs";

/** What Trace needs to read, evaluate and typeset equations; loaded when it is first shown. */
export interface Libraries {
  readonly math: MathJsInstance;
  readonly typeset: (tex: string, into: HTMLElement) => void;
  /** The equation as text of a document. */
  readonly mathml: (tex: string) => string;
}

let loading: Promise<Libraries> | undefined;

/** mathjs for plain numbers (a quarter of the whole) and the typesetter, once. */
export function libraries(): Promise<Libraries> {
  return (loading ??= Promise.all([import("mathjs/number"), import("temml")]).then(
    ([{ create, all }, { default: temml }]) => ({
      math: create(all!),
      typeset: (tex: string, into: HTMLElement) => temml.render(tex, into, { displayMode: true, throwOnError: true }),
      mathml: (tex: string) => temml.renderToString(tex, { displayMode: true, throwOnError: true }),
    }),
  ));
}
