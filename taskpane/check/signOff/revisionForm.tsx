import { useState } from "preact/hooks";
import type { NewRevision } from "../../../src/checker/index.ts";
import { Entry } from "./entry.tsx";
import { readDate, readInitials, readRevisionName } from "./entries.ts";
import { StateTag } from "./selectedPart.tsx";
import type { Marked } from "./marked.ts";

const longestWhat = 200;

const changedWords = (state: string): string =>
  state === "stale: formulas changed" ? "formulas were changed, with the values they had" : "values were changed";

/** The revision table, and a form for its next line. */
export function RevisionForm({
  marked,
  issue,
  date,
}: {
  readonly marked: Marked;
  readonly date: string;
  readonly issue: (revision: NewRevision) => Promise<boolean>;
}) {
  const { revisions: table, recognised } = marked;
  const [name, setName] = useState<string>();
  const [what, setWhat] = useState("");
  const [by, setBy] = useState("");
  const [checkedBy, setCheckedBy] = useState("");
  const [tried, setTried] = useState(false);
  if (!table)
    return (
      <section aria-label="Revisions">
        <h3>Revisions</h3>
        <p class="kb-hint">
          This sheet has no revision table: it was built by an earlier version of its template. Build it anew to have
          one.
        </p>
      </section>
    );
  const shownName = name ?? table.suggested;
  const read = {
    name: readRevisionName(
      shownName,
      table.revisions.map((r) => r.name),
    ),
    date: readDate(date),
    by: readInitials(by),
  };
  const checked = checkedBy.trim() === "" ? { value: "" } : readInitials(checkedBy);
  const whatProblem =
    what.trim() === ""
      ? "What changed is missing; allowed: a text, such as First issue."
      : what.trim().length > longestWhat
        ? `What changed has ${what.trim().length} characters; allowed: at most ${longestWhat}.`
        : "";
  const problem = (of: { readonly value: string } | { readonly problem: string }): string =>
    tried && "problem" in of ? of.problem : "";
  const ofTitle = recognised.inputs["revision"];
  const submit = async (): Promise<void> => {
    setTried(true);
    if ("problem" in read.name || "problem" in read.date || "problem" in read.by || "problem" in checked || whatProblem)
      return;
    if (
      await issue({
        name: read.name.value,
        date: read.date.value,
        by: read.by.value,
        what: what.trim(),
        checkedBy: checked.value,
      })
    ) {
      setTried(false);
      setName(undefined);
      setWhat("");
    }
  };
  const latest = table.revisions.at(-1);
  return (
    <section aria-label="Revisions">
      <h3>Revisions</h3>
      {latest?.state && (
        <p>
          <StateTag state={latest.state} />{" "}
          {latest.state === "holds"
            ? `The sheet is what revision ${latest.name} sealed.`
            : `The sheet is no longer what revision ${latest.name} sealed: ` +
              `${changedWords(latest.state)}. ` +
              "Which, a seal cannot tell; the issued copy can."}
        </p>
      )}
      {table.revisions.length === 0 ? (
        <p class="kb-hint">None so far.</p>
      ) : (
        <ul class="kb-plain">
          {table.revisions.map((r) => (
            <li key={r.line}>
              <strong>{r.name || "–"}</strong> {r.date}, {r.by || "–"}: {r.what}
              {r.checkedBy && `; checked ${r.checkedBy}`}
              {!r.state && <span class="kb-hint"> (no seal that counts)</span>}
            </li>
          ))}
        </ul>
      )}
      {table.next === undefined ? (
        <p class="kb-hint">
          All {table.lines} lines of the table are filled. Its cells may be typed in: empty the oldest ones from the
          bottom up once a copy is kept, or build the sheet anew.
        </p>
      ) : (
        <details class="kb-group" open={table.revisions.length === 0}>
          <summary>Issue a revision</summary>
          <fieldset>
            <legend class="kb-hidden">Issue a revision</legend>
            <Entry
              id="kb-rev-name"
              label="Revision"
              value={shownName}
              put={setName}
              problem={problem(read.name)}
              {...(typeof ofTitle === "string" &&
                ofTitle !== "" &&
                ofTitle !== shownName.trim() && {
                  hint: `The title of the sheet says revision ${ofTitle}. Type it there before you issue: the seal covers the title.`,
                })}
            />
            <Entry
              id="kb-rev-what"
              label="What changed"
              value={what}
              put={setWhat}
              problem={tried ? whatProblem : ""}
            />
            <Entry id="kb-rev-by" label="By (initials)" value={by} put={setBy} problem={problem(read.by)} />
            <Entry
              id="kb-rev-checked"
              label="Checked by (initials, may stay empty)"
              value={checkedBy}
              put={setCheckedBy}
              problem={problem(checked)}
            />
            <p class="kb-hint">
              Dated {"value" in read.date ? read.date.value : "as above"}. The seal is of every input, value and formula
              above the revision table, marks left out.
            </p>
            <button type="button" class="kb-primary" onClick={() => void submit()}>
              Issue revision {shownName.trim()}
            </button>
          </fieldset>
        </details>
      )}
    </section>
  );
}
