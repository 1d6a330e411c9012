import { a1, type Address } from "../../../src/cells/index.ts";
import type { CheckOutcome, CheckState, WhatIf } from "../../../src/checker/index.ts";
import { unconfirmedText } from "../../../src/sheet/index.ts";
import { toneOf } from "../../verdict.ts";
import { held, signed, titleOf, utilisationText } from "./words.ts";

const turnedAtOnce = 12;
const warningsAtOnce = 2;

/** Checks whose verdict turns first, then by how far they move. */
function inOrder(checks: readonly CheckOutcome[]): readonly CheckOutcome[] {
  const by = (c: CheckOutcome): number =>
    (c.turned ? 1e6 : 0) + (c.moved ? 1e3 : 0) + Math.abs((c.after.utilisation ?? 0) - (c.before.utilisation ?? 0));
  return [...checks].sort((a, b) => by(b) - by(a));
}

function State({
  of,
  governs,
  unconfirmed,
}: {
  readonly of: CheckState;
  readonly governs: boolean;
  readonly unconfirmed: number;
}) {
  return (
    <td>
      {governs ? <strong>{utilisationText(of)}</strong> : utilisationText(of)}
      <br />
      <span class={`kb-tag ${toneOf(of.verdict, unconfirmed)}`}>{of.verdict || "–"}</span>
    </td>
  );
}

/** The same input is often warned of at every station: the first ones say it. */
function WarningList({ title, of }: { readonly title: string; readonly of: readonly string[] }) {
  if (of.length === 0) return null;
  const list = (some: readonly string[]) => (
    <ul>
      {some.map((text, i) => (
        <li key={i}>{text}</li>
      ))}
    </ul>
  );
  const rest = of.slice(warningsAtOnce);
  return (
    <div class="kb-warnings">
      <h4>
        {title}: {of.length}
      </h4>
      {list(of.slice(0, warningsAtOnce))}
      {rest.length > 0 && (
        <details>
          <summary>{rest.length} more</summary>
          {list(rest)}
        </details>
      )}
    </div>
  );
}

/** The checks before and after, what turned besides, and warnings that come or go. */
export function Outcome({ of, go }: { readonly of: WhatIf; readonly go: (at: Address) => void }) {
  const { overall, governing, checks, turned, warnings, cannot } = of;
  const moved = checks.filter((c) => c.moved || c.turned).length;
  return (
    <section aria-label="What would be" class="kb-whatif">
      <h3>What would be</h3>
      <ul class="kb-plain">
        {of.changed.slice(0, 8).map(({ input, label, at, before, after }) => (
          <li key={a1(at)}>
            <button type="button" class="kb-link" onClick={() => go(at)}>
              {titleOf(input)}
              {label && `, ${label}`}
            </button>
            <div>
              {held(before, input.unit)} → {held(after, input.unit)}
            </div>
          </li>
        ))}
        {of.changed.length > 8 && <li>and {of.changed.length - 8} more cells</li>}
      </ul>
      <p class="kb-overall" role="status">
        Overall <span class={`kb-tag ${toneOf(overall.before, of.unconfirmed)}`}>{overall.before}</span> →{" "}
        <span class={`kb-tag ${toneOf(overall.after, of.unconfirmed)}`}>{overall.after}</span>
        {of.unconfirmed > 0 && <span class="kb-unconfirmed"> {unconfirmedText(of.unconfirmed)}</span>}
      </p>
      {of.linked.map(({ sheet, before, after }) => (
        <p key={sheet}>
          Linked sheet {sheet}: <span class={`kb-tag ${toneOf(before, of.unconfirmed)}`}>{before}</span> →{" "}
          <span class={`kb-tag ${toneOf(after, of.unconfirmed)}`}>{after}</span>
        </p>
      ))}
      <p>
        {governing.after ? (
          <>
            Governs then: <strong>{governing.after.description}</strong>, utilisation{" "}
            {utilisationText(governing.after.after)}
            {governing.before && governing.before.id !== governing.after.id ? (
              <>
                {" "}
                (now: {governing.before.description}, {utilisationText(governing.before.before)})
              </>
            ) : (
              governing.before && <> (now {utilisationText(governing.before.before)})</>
            )}
            .
          </>
        ) : (
          "No check has a utilisation then."
        )}
      </p>
      {cannot.length > 0 && (
        <div class="kb-problem">
          <p>Not everything can be computed apart from the program; what depends on it is left open:</p>
          <ul>
            {cannot.map((why) => (
              <li key={why}>{why}</li>
            ))}
          </ul>
        </div>
      )}
      <div class="kb-scroll" tabIndex={0} role="group" aria-label="Checks before and after">
        <table class="kb-table kb-checks">
          <caption class="kb-hidden">Checks before and after the change; those that turn or move stand first</caption>
          <thead>
            <tr>
              <th scope="col">check, and where it governs then</th>
              <th scope="col">now</th>
              <th scope="col">then</th>
              <th scope="col">change</th>
            </tr>
          </thead>
          <tbody>
            {inOrder(checks).map((c) => (
              <tr key={c.id} class={c.turned ? "kb-governs" : undefined}>
                <th scope="row">
                  <button
                    type="button"
                    class="kb-link"
                    aria-label={`${c.description}: go to ${a1(c.utilisation)}`}
                    onClick={() => go(c.utilisation)}
                  >
                    {c.description}
                  </button>
                  <div class="kb-hint">
                    {c.after.where}
                    {c.before.where !== c.after.where && ` (now ${c.before.where})`}
                    {c.typedOver && " · typed over: does not follow the inputs"}
                  </div>
                </th>
                <State of={c.before} governs={governing.before?.id === c.id} unconfirmed={of.unconfirmed} />
                <State of={c.after} governs={governing.after?.id === c.id} unconfirmed={of.unconfirmed} />
                <td>
                  {c.before.utilisation !== undefined && c.after.utilisation !== undefined
                    ? c.moved
                      ? signed(c.after.utilisation - c.before.utilisation)
                      : "0"
                    : "–"}
                </td>
              </tr>
            ))}
          </tbody>
        </table>
      </div>
      <p class="kb-hint">
        {moved === 0
          ? "No check moves."
          : `${moved} of ${checks.length} checks move${checks.some((c) => c.turned) ? "" : "; no verdict turns"}.`}{" "}
        Bold: the check that governs.
      </p>
      {turned.length > 0 && (
        <details>
          <summary>
            {turned.length} other verdict{turned.length === 1 ? "" : "s"} and statuses turn
          </summary>
          <ul>
            {turned.slice(0, turnedAtOnce).map((t) => (
              <li key={a1(t.at)}>
                <button type="button" class="kb-link" onClick={() => go(t.at)}>
                  {a1(t.at)}
                </button>{" "}
                {t.of}: {t.before || "empty"} → {t.after || "empty"}
              </li>
            ))}
            {turned.length > turnedAtOnce && <li>and {turned.length - turnedAtOnce} more</li>}
          </ul>
        </details>
      )}
      <WarningList title="Warnings that appear" of={warnings.appeared} />
      <WarningList title="Warnings that go" of={warnings.gone} />
    </section>
  );
}
