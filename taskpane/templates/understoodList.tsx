import { a1, type Address } from "../../src/cells/index.ts";
import { kindsOfUnderstood, type KeptSheet, type Refusal, type Understood } from "../../src/office/index.ts";

interface Way {
  readonly sheet: string;
  readonly go: (at: Address) => void;
}

/** So many lines of a kind are shown at once. */
const most = 100;

const headings: Readonly<Record<Understood["kind"], string>> = {
  "not understood": "Not understood",
  changed: "Changed",
  moved: "Moved",
  added: "Added",
  "left out": "Left out",
  kept: "Kept as they are",
};

function Where({ at, label, sheet, go }: Way & { readonly at: Address; readonly label: string }) {
  return (
    <button
      type="button"
      class="kb-link kb-address"
      aria-label={`Go to ${a1(at)} of ${sheet}: ${label}`}
      onClick={() => go(at)}
    >
      {a1(at)}
    </button>
  );
}

function Line({ one, ...way }: Way & { readonly one: Understood }) {
  const { at, label, id, what, before, after } = one;
  const isNamed = id === undefined || label.includes(`(${id})`);
  return (
    <li class={one.kind === "not understood" ? "kb-grade-look" : undefined}>
      {at && <Where at={at} label={label} {...way} />} {label}
      {!isNamed && ` (${id})`}
      <div class="kb-hint">{what}</div>
      {(before !== undefined || after !== undefined) && (
        <dl class="kb-facts">
          {before !== undefined && (
            <div>
              <dt>before</dt>
              <dd>{before}</dd>
            </div>
          )}
          {after !== undefined && (
            <div>
              <dt>now</dt>
              <dd>{after}</dd>
            </div>
          )}
        </dl>
      )}
    </li>
  );
}

/** What was understood of a sheet that is to become a template: what is not taken comes first, with the reason. */
export function UnderstoodList({ rows, ...way }: Way & Pick<KeptSheet, "rows">) {
  return (
    <section aria-label="What was understood">
      {kindsOfUnderstood.map((kind) => {
        const those = rows.filter((row) => row.kind === kind);
        if (those.length === 0) return null;
        const heading = `${headings[kind]}: ${those.length}`;
        if (kind === "kept") return <p key={kind}>{heading}.</p>;
        return (
          <details key={kind} class="kb-kind" open>
            <summary>{heading}</summary>
            {kind === "not understood" && <p class="kb-hint">The template does not take these over.</p>}
            <ol class="kb-findings">
              {those.slice(0, most).map((one, i) => (
                <Line key={i} one={one} {...way} />
              ))}
            </ol>
            {those.length > most && <p class="kb-hint">{those.length - most} more of the same kind.</p>}
          </details>
        );
      })}
      {rows.every(({ kind }) => kind === "kept") && (
        <p>Nothing was changed by hand: the template would build the same sheet.</p>
      )}
    </section>
  );
}

/** Why no template is made, each with its cell. */
export function RefusalList({ refused, ...way }: Way & { readonly refused: readonly Refusal[] }) {
  if (refused.length === 0) return null;
  return (
    <div class="kb-failure" role="alert">
      <p>No template is made of the sheet as it is. Correct on the sheet:</p>
      <ul>
        {refused.slice(0, most).map(({ at, what }) => (
          <li key={`${at ? a1(at) : ""} ${what}`}>
            {at && <Where at={at} label={what} {...way} />} {what}
          </li>
        ))}
      </ul>
      {refused.length > most && <p>{refused.length - most} more.</p>}
    </div>
  );
}
