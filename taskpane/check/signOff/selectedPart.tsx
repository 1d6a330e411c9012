import { a1, type Address } from "../../../src/cells/index.ts";
import { useState } from "preact/hooks";
import { doubtsIn, errorsIn, nameOfPart, partsAt, type Mark, type Part } from "../../../src/checker/index.ts";
import { markOf, markText } from "./markWords.ts";
import type { Marked } from "./marked.ts";

interface Doing {
  /** The initials given; empty while there are none that can be used. */
  readonly by: string;
  readonly mark: (part: Part) => void;
  readonly unmark: (mark: Mark) => void;
}

export function StateTag({ state }: Pick<Mark, "state">) {
  if (state === "holds") return <span class="kb-tag kb-tag-good">HOLDS</span>;
  if (state === "unreadable" || state === "astray") return <span class="kb-tag kb-tag-open">UNSEALED</span>;
  return <span class="kb-tag kb-tag-bad">STALE</span>;
}

function doubtsText(doubts: ReadonlyMap<string, number>, of: Part): string {
  const words = [...doubts].map(([word, count]) => (of.kind === "row" ? word : `${count} × ${word}`)).join(", ");
  return `${of.kind === "row" ? "It says" : "It holds"} ${words}. A mark says that it was looked at, not that it complies.`;
}

/** Marks a part; over a mark of someone else's only after asking. */
export function MarkButton({
  part,
  own,
  by,
  mark,
  disabled,
}: {
  readonly part: Part;
  readonly own: Mark | undefined;
  readonly by: string;
  readonly mark: (part: Part) => void;
  readonly disabled?: boolean;
}) {
  const [asked, setAsked] = useState(false);
  const name = `${part.kind} ${part.item}`;
  if (asked && own)
    return (
      <span class="kb-pick" role="group" aria-label={`Replace the mark of ${name}`}>
        <span>Replace {own.by === "" ? `“${own.text}”` : `the mark of ${own.by}`}?</span>
        <button
          type="button"
          onClick={() => {
            setAsked(false);
            mark(part);
          }}
        >
          Replace
        </button>
        <button type="button" onClick={() => setAsked(false)}>
          Keep
        </button>
      </span>
    );
  return (
    <button
      type="button"
      disabled={by === "" || disabled === true}
      onClick={() => (own && own.by !== by ? setAsked(true) : mark(part))}
    >
      {own ? `Mark ${name} again` : `Mark ${name}`}
    </button>
  );
}

/** One thing that can be marked: what stands there, and what can be done. */
function Markable({ part, marked, by, mark, unmark }: Doing & { readonly part: Part; readonly marked: Marked }) {
  const own = markOf(part, marked.marks);
  const errors = errorsIn(part, marked.recognised);
  const doubts = doubtsIn(part, marked.recognised);
  return (
    <div class="kb-markable">
      <p>
        <strong>{nameOfPart(part)}</strong>
      </p>
      {own && (
        <p>
          <StateTag state={own.state} /> {markText(own)}
        </p>
      )}
      {errors.length > 0 ? (
        <p class="kb-hint">
          {errors.slice(0, 3).join(", ")}
          {errors.length > 3 ? ` and ${errors.length - 3} more` : ""}{" "}
          {errors.length === 1 ? "shows an error" : "show errors"}: cells that show an error cannot be marked.
        </p>
      ) : (
        doubts.size > 0 && <p class="kb-hint">{doubtsText(doubts, part)}</p>
      )}
      <div class="kb-pick">
        <MarkButton part={part} own={own} by={by} mark={mark} disabled={errors.length > 0} />
        {own && (
          <button type="button" class="kb-link" onClick={() => unmark(own)}>
            Take the mark off
          </button>
        )}
      </div>
    </div>
  );
}

/** What is selected: its row or table, and its block. */
export function SelectedPart({
  at,
  marked,
  ...doing
}: Doing & { readonly at: Address | undefined; readonly marked: Marked }) {
  const planned = at && marked.recognised.rowPlanned(at.row);
  const { item, block } = planned === undefined ? {} : partsAt(marked.recognised.plan, planned);
  return (
    <section aria-label="Selected">
      <h3>Selected{at ? `: ${a1(at)}` : ""}</h3>
      {!item && !block && (
        <p class="kb-hint">
          {at && planned === undefined
            ? "This row is none of the template's; it can be marked with its block."
            : "Here is nothing to mark. Select a row, a table or a block of the sheet."}
        </p>
      )}
      {[item, block].map(
        (part) => part && <Markable key={`${part.kind} ${part.item}`} part={part} marked={marked} {...doing} />,
      )}
    </section>
  );
}
