import { isNotFetched, whyNot } from "./loading.ts";

interface Props {
  /** What could not be loaded, as in “Trace could not be loaded”. */
  readonly title: string;
  readonly error: unknown;
  readonly again: () => void;
}

/** Says that a part of the panel could not be loaded, and offers what may help. */
export function NotLoaded({ title, error, again }: Props) {
  return (
    <>
      <p class="kb-problem" role="alert">
        {title} could not be loaded: {whyNot(error)}.
      </p>
      <button type="button" onClick={again}>
        Try again
      </button>{" "}
      {isNotFetched(error) && (
        <button type="button" onClick={() => window.location.reload()}>
          Reload the page
        </button>
      )}
    </>
  );
}
