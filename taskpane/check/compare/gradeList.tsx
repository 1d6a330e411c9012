import { a1 } from "../../../src/cells/index.ts";
import { useState } from "preact/hooks";
import { aboutOf, gradeWords, whereOf, type Finding } from "../../../src/checker/index.ts";
import type { ToolProps } from "../tool.ts";
import { Differing } from "./differing.tsx";

/** So many are shown at once; the rest on asking. */
const shownAtOnce = 40;

type Way = Pick<ToolProps, "go" | "trace"> & { readonly sheet: string };

/** Findings one after another that say the same and no more, as of inputs left empty, stand together. */
function together(findings: readonly Finding[]): readonly (readonly Finding[])[] {
  const groups: Finding[][] = [];
  for (const f of findings) {
    const last = groups.at(-1)?.[0];
    const alike =
      last?.what === f.what &&
      [last, f].every(({ at, expected, found }) => at && expected === undefined && found === undefined);
    if (alike) groups.at(-1)!.push(f);
    else groups.push([f]);
  }
  return groups;
}

/** The findings of one grade, each with what was expected and found, and its way to the cell. */
export function GradeList({
  grade,
  findings,
  ...way
}: Way & { readonly grade: Finding["grade"]; readonly findings: readonly Finding[] }) {
  const [all, setAll] = useState(false);
  if (findings.length === 0) return null;
  const { title, means } = gradeWords[grade];
  const groups = together(findings);
  return (
    <section>
      <h3>
        {title}: {findings.length}
      </h3>
      <p class="kb-hint">{means}</p>
      <ol class="kb-findings">
        {(all ? groups : groups.slice(0, shownAtOnce)).map((group, i) => (
          <li key={i} class={`kb-grade-${grade}`}>
            {group.length === 1 ? (
              <One of={group[0]!} {...way} />
            ) : (
              <>
                <p>{group[0]!.what}</p>
                <ul class="kb-plain">
                  {group.map((f) => (
                    <li key={whereOf(f)}>
                      <Where of={f} {...way} /> {aboutOf(f)}
                    </li>
                  ))}
                </ul>
              </>
            )}
          </li>
        ))}
      </ol>
      {!all && groups.length > shownAtOnce && (
        <button type="button" onClick={() => setAll(true)}>
          Show all {findings.length}
        </button>
      )}
    </section>
  );
}

function Where({ of, sheet, go }: Way & { readonly of: Finding }) {
  return (
    <button
      type="button"
      class="kb-link"
      aria-label={[`Go to ${whereOf(of)}`, aboutOf(of)].filter(Boolean).join(", ")}
      onClick={() => go({ sheet, ...of.at! })}
    >
      {whereOf(of)}
    </button>
  );
}

function One({ of, ...way }: Way & { readonly of: Finding }) {
  const { at, what, expected, found } = of;
  const label = aboutOf(of);
  return (
    <>
      {(at ?? label !== "") && (
        <p>
          {at && <Where of={of} {...way} />} <strong>{label}</strong>
        </p>
      )}
      <p>{what}</p>
      {(expected !== undefined || found !== undefined) && (
        <dl class="kb-facts">
          {expected !== undefined && (
            <div>
              <dt>expected</dt>
              <dd>
                <code>
                  <Differing text={expected} from={found} />
                </code>
              </dd>
            </div>
          )}
          {found !== undefined && (
            <div>
              <dt>found</dt>
              <dd>
                <code>
                  <Differing text={found} from={expected} />
                </code>
              </dd>
            </div>
          )}
        </dl>
      )}
      {at && found?.startsWith("=") && (
        <button type="button" class="kb-link" onClick={() => way.trace({ sheet: way.sheet, ...at })}>
          Trace {a1(at)}
        </button>
      )}
    </>
  );
}
