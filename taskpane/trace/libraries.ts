import type { MathJsInstance } from "mathjs";

/** What Trace needs to read, evaluate and typeset equations; loaded when it is first shown. */
export interface Libraries {
  readonly math: MathJsInstance;
  readonly typeset: (tex: string, into: HTMLElement) => void;
  /** The equation as text of a document. */
  readonly mathml: (tex: string) => string;
}

let loading: Promise<Libraries> | undefined;

async function load(): Promise<Libraries> {
  const [{ create, all }, { default: temml }] = await Promise.all([import("mathjs/number"), import("temml")]);
  return {
    math: create(all!),
    typeset: (tex, into) => temml.render(tex, into, { displayMode: true, throwOnError: true }),
    mathml: (tex) => temml.renderToString(tex, { displayMode: true, throwOnError: true }),
  };
}

/** mathjs for plain numbers (a quarter of the whole) and the typesetter, once; after a failure they are asked for anew. */
export function libraries(): Promise<Libraries> {
  loading ??= load().catch((error: unknown) => {
    loading = undefined;
    throw error;
  });
  return loading;
}
