import { useEffect, useRef, useState } from "preact/hooks";
import { whyNot } from "../loading.ts";
import { scrollToTop } from "../scroll.ts";
import { referencePageOf, type ReferencePage } from "./page.ts";

/** A place in the reference: a page and, maybe, a place on it. */
export interface Stop {
  readonly file: string;
  readonly anchor?: string;
}

interface Props {
  readonly at: Stop;
  readonly go: (to: Stop) => void;
  /** Whether the heading takes the focus when the page stands: after a link, not at first sight. */
  readonly focus: boolean;
}

/** A page of the reference, the same as the static one; its links stay in the panel. */
export function PageContent({ at, go, focus }: Props) {
  const place = useRef<HTMLDivElement>(null);
  const [page, setPage] = useState<ReferencePage>();
  const [problem, setProblem] = useState("");
  const [attempt, setAttempt] = useState(0);
  useEffect(() => {
    let live = true;
    setPage(undefined);
    setProblem("");
    referencePageOf(at.file).then(
      (got) => {
        if (live) setPage(got);
      },
      (error: unknown) => {
        if (live) setProblem(whyNot(error));
      },
    );
    return () => {
      live = false;
    };
  }, [at.file, attempt]);
  useEffect(() => {
    if (!page || !place.current) return;
    const target =
      at.anchor === undefined ? null : place.current.querySelector<HTMLElement>(`#${CSS.escape(at.anchor)}`);
    if (target) target.scrollIntoView({ block: "start" });
    else scrollToTop(place.current);
    if (!focus) return;
    const heading = target ?? place.current.querySelector<HTMLElement>("h2");
    heading?.setAttribute("tabindex", "-1");
    heading?.focus({ preventScroll: true });
  }, [page, at]);
  const follow = (event: MouseEvent): void => {
    const href = (event.target as Element).closest("a[href]")?.getAttribute("href");
    if (href === null || href === undefined) return;
    event.preventDefault();
    const [file, anchor] = href.split("#");
    go({ file: file || at.file, ...(anchor !== undefined && { anchor }) });
  };
  if (problem)
    return (
      <div role="alert">
        <p class="kb-problem">The reference could not be read: {problem}.</p>
        <button type="button" onClick={() => setAttempt((n) => n + 1)}>
          Try again
        </button>
      </div>
    );
  if (!page) return <p role="status">Opening the reference …</p>;
  return (
    <>
      <style>{page.style}</style>
      {/* Our own build's text, without a script. */}
      <div ref={place} class="kr-page" onClick={follow} dangerouslySetInnerHTML={{ __html: page.content }} />
    </>
  );
}
