import { useState } from "preact/hooks";
import { a1 } from "../../../src/cells/index.ts";
import { verdictWords, type IdentifyFinding, type Verdict } from "../../../src/checker/index.ts";
import type { ToolProps } from "../tool.ts";
import { FindingItem } from "./findingItem.tsx";

/** So many are shown at once; the rest on asking. */
const shownAtOnce = 30;

/** The formulas of one verdict. What was not recognised is folded away where there is much of it. */
export function VerdictList({
  verdict,
  findings,
  ...props
}: ToolProps & { readonly verdict: Verdict; readonly findings: readonly IdentifyFinding[] }) {
  const [all, setAll] = useState(false);
  if (findings.length === 0) return null;
  const shown = all ? findings : findings.slice(0, shownAtOnce);
  const list = (
    <ol class="kb-findings">
      {shown.map((finding) => (
        <li key={a1(finding.place)} class={`kb-identify-${verdict}`}>
          <FindingItem of={finding} {...props} />
        </li>
      ))}
    </ol>
  );
  const title = `${verdictWords[verdict].title}: ${findings.length}`;
  const more = !all && findings.length > shownAtOnce && (
    <button type="button" onClick={() => setAll(true)}>
      Show all {findings.length}
    </button>
  );
  if (verdict !== "unknown")
    return (
      <section>
        <h3>{title}</h3>
        {list}
        {more}
      </section>
    );
  return (
    <details open={findings.length === 1}>
      <summary>{title}</summary>
      {list}
      {more}
    </details>
  );
}
