import { a1, type Address } from "../../../src/cells/index.ts";
import { useEffect, useRef, useState } from "preact/hooks";
import {
  markCells,
  nameOfPart,
  revisionCells,
  unmarkCells,
  type BlockProgress,
  type Mark,
  type Part,
} from "../../../src/checker/index.ts";
import type { ToolProps } from "../tool.ts";
import { NotATemplates } from "../../templates/notATemplates.tsx";
import { useSheet } from "../useSheet.ts";
import { readDate, readInitials, today } from "./entries.ts";
import { Entry } from "./entry.tsx";
import { RevisionForm } from "./revisionForm.tsx";
import { doneText, markText, type Done } from "./markWords.ts";
import { MarkButton, SelectedPart, StateTag } from "./selectedPart.tsx";
import type { Marked } from "./marked.ts";
import { useMarks } from "./useMarks.ts";

/** Marks of the checker's on the sheet, and its revisions. */
export function SignOffView({ host, go }: ToolProps) {
  const { sheet, problem: selection } = useSheet(host);
  const [at, setAt] = useState<Address>();
  const [initials, setInitials] = useState("");
  const [date, setDate] = useState(today());
  const [done, setDone] = useState<Done>();
  const place = useRef<HTMLDivElement>(null);
  const { seen, busy, writing, problem, again, enter } = useMarks(host, sheet, place);
  useEffect(() => {
    host.selection().then(
      (s) => s && setAt(s),
      () => undefined,
    );
    return host.onSelection(setAt);
  }, [host]);
  // The last result is shown until another row is selected, whose own state stands above.
  useEffect(() => setDone(undefined), [sheet, at?.row]);
  const by = readInitials(initials);
  const day = readDate(date);
  const ready = "value" in by && "value" in day ? { by: by.value, date: day.value } : undefined;
  const marked = seen?.sheet === sheet ? seen?.marked : undefined;
  const mark = async (part: Part): Promise<void> => {
    if (ready && (await enter((recognised) => markCells(part, recognised, ready.by, ready.date))))
      setDone({ what: "marked", part });
  };
  const unmark = async (one: Mark): Promise<void> => {
    if (await enter(() => unmarkCells(one))) setDone({ what: "taken off", part: one.part });
  };
  return (
    <div ref={place}>
      <p>
        A mark in the column “checked” says who has checked these cells and when. It becomes STALE once a value changes.
        It is a person's statement: no legal signature and no protection against forgery.
      </p>
      {selection && (
        <p class="kb-problem" role="alert">
          {selection}
        </p>
      )}
      {sheet === undefined && <p class="kb-hint">Select a cell of the sheet to sign off.</p>}
      {seen && seen.sheet === sheet && !marked && (
        <NotATemplates id="sign-off" host={host} sheet={sheet} again={() => void again()} />
      )}
      <div role="alert">{problem && <p class="kb-problem">{problem}</p>}</div>
      {marked && (
        <>
          <p>
            Sheet <strong>{sheet}</strong>, {marked.recognised.template.id} {marked.recognised.head.templateVersion}.{" "}
            <button type="button" class="kb-link" disabled={busy} onClick={() => void again()}>
              {busy ? "Reading …" : "Read again"}
            </button>
          </p>
          <div class="kb-signer">
            <Entry
              id="kb-initials"
              label="Your initials"
              value={initials}
              put={setInitials}
              problem={initials !== "" && "problem" in by ? by.problem : ""}
              hint="1 to 5 letters"
            />
            <Entry
              id="kb-mark-date"
              label="Date"
              value={date}
              put={setDate}
              problem={"problem" in day ? day.problem : ""}
              hint="year-month-day"
            />
          </div>
          <SelectedPart
            at={at}
            marked={marked}
            by={ready?.by ?? ""}
            mark={(part) => void mark(part)}
            unmark={(one) => void unmark(one)}
          />
          {!ready && (
            <p class="kb-hint">
              {initials.trim() === "" ? "Type your initials to mark." : "Correct initials and date to mark."}
            </p>
          )}
          <div role="status">
            {writing && <p class="kb-hint">Writing to the sheet …</p>}
            {!writing && done && <p class="kb-hint">{doneText(done, marked.marks)}</p>}
          </div>
          <Progress
            marked={marked}
            sheet={marked.recognised.snapshot.sheet}
            go={go}
            by={ready?.by ?? ""}
            mark={(part) => void mark(part)}
          />
          <RevisionForm
            key={sheet}
            marked={marked}
            date={date}
            issue={(revision) => enter((recognised) => revisionCells(recognised, revision))}
          />
        </>
      )}
    </div>
  );
}

function Progress({
  marked,
  sheet,
  go,
  by,
  mark,
}: { readonly marked: Marked; readonly sheet: string; readonly by: string; readonly mark: (part: Part) => void } & Pick<
  ToolProps,
  "go"
>) {
  const { progress, marks, recognised } = marked;
  const total = (of: "parts" | "marked" | "stale"): number => progress.reduce((sum, one) => sum + one[of], 0);
  const amiss = marks
    .filter(({ state }) => state !== "holds")
    .sort((a, b) => Number(a.state === "unreadable") - Number(b.state === "unreadable"));
  const toBlock = ({ block }: BlockProgress): void => {
    const row = recognised.rowNow(block.first);
    if (row !== undefined) go({ sheet, row, column: 0 });
  };
  return (
    <section aria-label="Marks">
      <h3>Marks</h3>
      <p>
        {total("marked")} of {total("parts")} rows and tables marked
        {total("stale") > 0 ? `, ${total("stale")} stale` : ""}.
      </p>
      {amiss.length > 0 && (
        <ul class="kb-plain kb-amiss">
          {amiss.map((one) => (
            <li key={`${one.at.row}`}>
              <p>
                <StateTag state={one.state} />{" "}
                <button
                  type="button"
                  class="kb-link"
                  aria-label={`Go to the mark at ${nameOfPart(one.part)}`}
                  onClick={() => go({ sheet, ...one.at })}
                >
                  {a1(one.at)}
                </button>{" "}
                <strong>{nameOfPart(one.part)}</strong>
              </p>
              <p class="kb-hint">{markText(one)}</p>
              <MarkButton part={one.part} own={one} by={by} mark={mark} />
            </li>
          ))}
        </ul>
      )}
      <table class="kb-table kb-checks">
        <caption class="kb-hidden">Blocks with rows and tables marked, stale and open</caption>
        <thead>
          <tr>
            <th scope="col">block</th>
            <th scope="col">marked</th>
            <th scope="col">stale</th>
            <th scope="col">open</th>
          </tr>
        </thead>
        <tbody>
          {[...progress]
            .sort((a, b) => Number(b.stale > 0) - Number(a.stale > 0))
            .map((one) => (
              <tr key={one.block.item}>
                <th scope="row">
                  <button type="button" class="kb-link" onClick={() => toBlock(one)}>
                    {one.block.item} {one.block.description}
                  </button>
                </th>
                <td>{one.marked}</td>
                <td>{one.stale > 0 ? <span class="kb-tag kb-tag-bad">{one.stale}</span> : 0}</td>
                <td>{one.open}</td>
              </tr>
            ))}
        </tbody>
      </table>
    </section>
  );
}
