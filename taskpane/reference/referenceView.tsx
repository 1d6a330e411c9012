import { useEffect, useState } from "preact/hooks";
import { referencePage } from "../../functions/index.ts";
import { FunctionList } from "../insert/functionList.tsx";
import { designFunctions } from "../insert/search.ts";
import { PageContent, type Stop } from "./pageContent.tsx";

/** A page asked for from another view. */
export interface Asked {
  readonly id: string;
  /** Title of the view that asked. */
  readonly from: string;
}

interface Props {
  readonly asked: Asked | undefined;
  /** Back to the view that asked. */
  readonly back: () => void;
  readonly insert: (id: string) => void;
}

const front: Stop = { file: referencePage() };

/** The reference: found by search, by task or by name; and the page of a function. */
export function ReferenceView({ asked, back, insert }: Props) {
  const [query, setQuery] = useState("");
  const [stops, setStops] = useState<readonly Stop[]>([]);
  useEffect(() => {
    if (asked) setStops([{ file: referencePage(asked.id) }]);
  }, [asked]);
  const go = (to: Stop): void =>
    setStops((all) => (to.file === front.file && to.anchor === undefined ? [] : [...all, to]));
  const here = stops.at(-1);
  const shown = designFunctions.find(({ id }) => here?.file === referencePage(id));
  return (
    <section aria-label="Reference">
      {(asked || here) && (
        <p class="kb-pick">
          {asked && (
            <button type="button" class="kb-link" onClick={back}>
              ‹ Back to {asked.from}
            </button>
          )}
          {stops.length > 1 && (
            <button type="button" class="kb-link" onClick={() => setStops((all) => all.slice(0, -1))}>
              ‹ Page before
            </button>
          )}
          {here && (
            <button type="button" class="kb-link" onClick={() => setStops([])}>
              {query.trim() === "" ? "All functions" : "All found"}
            </button>
          )}
          {shown && (
            <button type="button" class="kb-link" onClick={() => insert(shown.id)}>
              Insert this function
            </button>
          )}
        </p>
      )}
      {here ? (
        <PageContent at={here} go={go} focus />
      ) : (
        <FunctionList
          query={query}
          setQuery={setQuery}
          open={({ id }) => go({ file: referencePage(id) })}
          whenEmpty={<PageContent at={front} go={go} focus={false} />}
        />
      )}
    </section>
  );
}
