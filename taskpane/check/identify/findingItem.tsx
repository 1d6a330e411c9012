import { useEffect, useRef, useState } from "preact/hooks";
import { a1, placeText } from "../../../src/cells/index.ts";
import {
  argumentText,
  asSentence,
  effectText,
  evidenceText,
  givenText,
  outcomeText,
  type IdentifyFinding,
} from "../../../src/checker/index.ts";
import type { Selection } from "../../../src/hosts/index.ts";
import { whyNot } from "../../loading.ts";
import { ReferenceLink } from "../../reference/openReference.tsx";
import { WorkButton } from "../../workButton.tsx";
import type { ToolProps } from "../tool.ts";

type Found = NonNullable<IdentifyFinding["found"]>;

/** One formula: what it computes, how it differs, the evidence, and the library's function to set beside it. */
export function FindingItem({ of, ...props }: ToolProps & { readonly of: IdentifyFinding }) {
  const { place, label, formula, found } = of;
  const at = a1(place);
  return (
    <>
      <p>
        <button
          type="button"
          class="kb-link"
          aria-label={[`Go to ${at}`, label].filter(Boolean).join(", ")}
          onClick={() => props.go(place)}
        >
          {at}
        </button>{" "}
        <strong>{label}</strong>
      </p>
      <p class="kb-formula">
        <code>{formula}</code>
      </p>
      {found ? <Rule found={found} of={of} {...props} /> : <p class="kb-from">{asSentence(outcomeText(of))}</p>}
    </>
  );
}

function Rule({ found, of, ...props }: ToolProps & { readonly found: Found; readonly of: IdentifyFinding }) {
  return (
    <>
      <p class="kb-identify-name">
        <code>{found.id}</code>
      </p>
      <p>
        {asSentence(givenText(found))} <span class="kb-from">{found.source}</span>
      </p>
      {found.differences.map(({ says, effect }) => (
        <p key={says} class="kb-identify-differs">
          {asSentence(says)} {effect !== undefined && <strong>{asSentence(effectText(effect))}</strong>}
        </p>
      ))}
      <ul class="kb-plain kb-identify-arguments">
        {found.arguments.map((argument) => (
          <li key={argument.name} title={argument.text}>
            {argumentText(argument)}
          </li>
        ))}
      </ul>
      {found.open.map((text) => (
        <p key={text} class="kb-hint">
          {asSentence(text)}
        </p>
      ))}
      <p class="kb-hint">{asSentence(evidenceText(of))}</p>
      {found.others.length > 0 && <p class="kb-hint">The same numbers: {found.others.join(", ")}.</p>}
      <Beside found={found} of={of} {...props} />
      <p>
        <ReferenceLink id={found.id} />
      </p>
    </>
  );
}

/** The function linked to the same cells, put into a free cell that the user selects; never over anything. */
function Beside({ found, of, host, go }: ToolProps & { readonly found: Found; readonly of: IdentifyFinding }) {
  const [open, setOpen] = useState(false);
  const [target, setTarget] = useState<Selection>();
  const [busy, setBusy] = useState(false);
  const [problem, setProblem] = useState("");
  const [done, setDone] = useState<{ readonly where: string; readonly shows: string }>();
  const live = useRef(true);
  useEffect(() => {
    if (!open) return;
    live.current = true;
    const follow = (at: Selection | undefined): void => {
      if (live.current) setTarget(at);
    };
    host.selection().then(follow, (error: unknown) => setProblem(whyNot(error)));
    const end = host.onSelection(follow);
    return () => {
      live.current = false;
      end();
    };
  }, [host, open]);
  const sameSheet = target?.sheet === of.place.sheet;
  const where = target ? placeText({ ...target, rows: 1, columns: 1 }, of.place.sheet) : "";
  const insert = async (): Promise<void> => {
    if (!target) return;
    setBusy(true);
    setProblem("");
    setDone(undefined);
    try {
      const { sheet, row, column } = target;
      await host.insert(sheet, [{ row, column, formula: found.offered }]);
      const [line] = await host.read(sheet, { row, column, rows: 1, columns: 1 });
      setDone({ where, shows: line?.[0]?.text ?? "" });
    } catch (error) {
      setProblem(whyNot(error));
    }
    setBusy(false);
  };
  if (!open)
    return (
      <p>
        <button type="button" onClick={() => setOpen(true)}>
          Set the function beside it
          <span class="kb-hidden"> for {a1(of.place)}</span>
        </button>
      </p>
    );
  return (
    <div class="kb-identify-beside">
      <p class="kb-formula">
        <code>{found.offered}</code>
      </p>
      <p class="kb-hint">
        Select a free cell of “{of.place.sheet}”. The formula in {a1(of.place)} stays as it is.
      </p>
      <WorkButton busy={busy} disabled={!target || !sameSheet} act={() => void insert()}>
        {sameSheet ? `Put it in ${where}` : "Select a free cell"}
      </WorkButton>
      <div role="alert">{problem && <p class="kb-problem">{problem}</p>}</div>
      <div role="status">
        {done && target && (
          <p>
            Put in{" "}
            <button type="button" class="kb-link" onClick={() => go(target)}>
              {done.where}
            </button>
            , which shows {done.shows || "nothing"}.
          </p>
        )}
      </div>
    </div>
  );
}
