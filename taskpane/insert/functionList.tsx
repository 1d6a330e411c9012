import type { ComponentChildren } from "preact";
import { useId, useState } from "preact/hooks";
import { families } from "../../src/core/index.ts";
import { Sentence } from "../trace/tradeSymbol.tsx";
import { sourceWords } from "./block.ts";
import { search, type DesignFunction } from "./search.ts";

const most = 40;

function foundText(count: number): string {
  if (count === 0) return "";
  const more = count > most ? `; the first ${most} are shown, type more to narrow` : "";
  return `${count} function${count === 1 ? "" : "s"}${more}`;
}

interface Props {
  readonly query: string;
  readonly setQuery: (query: string) => void;
  readonly open: (of: DesignFunction) => void;
  /** Stands in place of the whole list while nothing is searched for. */
  readonly whenEmpty?: ComponentChildren;
}

/** Search by word, symbol or clause; arrows move in the list, Enter opens. */
export function FunctionList({ query, setQuery, open, whenEmpty }: Props) {
  const id = useId();
  const [at, setAt] = useState(0);
  const listed = whenEmpty === undefined || query.trim() !== "";
  const found = listed ? search(query) : [];
  const shown = found.slice(0, most);
  const current = Math.min(at, shown.length - 1);
  const keys = (event: KeyboardEvent): void => {
    const to = { ArrowDown: current + 1, ArrowUp: current - 1, Home: 0, End: shown.length - 1 }[event.key];
    if (to !== undefined && (event.key.startsWith("Arrow") || event.ctrlKey)) {
      event.preventDefault();
      const next = Math.max(0, Math.min(shown.length - 1, to));
      setAt(next);
      document.getElementById(`${id}-${next}`)?.scrollIntoView({ block: "nearest" });
    } else if (event.key === "Enter" && shown[current]) {
      event.preventDefault();
      open(shown[current]);
    }
  };
  return (
    <section>
      <div class="kb-search">
        <label for={`${id}-query`}>Find a function by word, symbol or clause</label>
        <input
          id={`${id}-query`}
          type="text"
          role="combobox"
          autocomplete="off"
          spellcheck={false}
          aria-expanded={shown.length > 0}
          aria-controls={`${id}-list`}
          aria-autocomplete="list"
          {...(shown.length > 0 && { "aria-activedescendant": `${id}-${current}` })}
          value={query}
          onInput={(e) => {
            setQuery(e.currentTarget.value);
            setAt(0);
          }}
          onKeyDown={keys}
        />
        <p class="kb-hint" role="status">
          {foundText(found.length)}
        </p>
      </div>
      {!listed && whenEmpty}
      {listed && found.length === 0 && (
        <p>
          No function has all of these. Try fewer words: a subject such as friction, a symbol such as σp0 or fck, a
          clause such as 5.10.5.2, or a standard such as EN1992 or IS1343.
        </p>
      )}
      {listed && (
        <ul class="kb-plain kb-functions" role="listbox" id={`${id}-list`} aria-label="Functions">
          {shown.map((f, i) => (
            <li
              key={f.id}
              id={`${id}-${i}`}
              role="option"
              aria-selected={i === current}
              onClick={() => open(f)}
              onMouseMove={() => setAt(i)}
            >
              <b>
                {f.id.split("_").map((part, k) =>
                  k === 0 ? (
                    part
                  ) : (
                    <>
                      <wbr />_{part}
                    </>
                  ),
                )}
              </b>
              <div>
                <Sentence of={f.summary} />
              </div>
              <div class="kb-from">
                {families[f.formula.family]} · {sourceWords(f)}
              </div>
            </li>
          ))}
        </ul>
      )}
    </section>
  );
}
