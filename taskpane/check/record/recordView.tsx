import { useEffect, useState } from "preact/hooks";
import { enterMeasured, readMeasured, type Measured } from "../../../src/checker/index.ts";
import { whyNot } from "../../loading.ts";
import type { ToolProps } from "../tool.ts";
import { useSheet } from "../useSheet.ts";

const shown = (value: number | undefined): string => (value === undefined ? "as designed" : value.toFixed(1));

/** What a stressing record measured goes into its stress check in place of assumed values. */
export function RecordView({ host, go }: ToolProps) {
  const { sheet, problem } = useSheet(host);
  const [measured, setMeasured] = useState<Measured>();
  const [said, setSaid] = useState("");
  const [failure, setFailure] = useState("");
  const [busy, setBusy] = useState(false);
  useEffect(() => {
    setMeasured(undefined);
    setSaid("");
    setFailure("");
  }, [sheet]);
  const run = async (work: () => Promise<void>): Promise<void> => {
    setBusy(true);
    setFailure("");
    try {
      await work();
    } catch (error) {
      setFailure(whyNot(error));
    } finally {
      setBusy(false);
    }
  };
  const read = (): Promise<void> =>
    run(async () => {
      setSaid("");
      setMeasured(await readMeasured(host, sheet!));
    });
  const enter = (): Promise<void> =>
    run(async () => {
      // Read again: the record may have changed since it was shown.
      const now = await readMeasured(host, sheet!);
      const count = await enterMeasured(host, now);
      setMeasured(await readMeasured(host, sheet!));
      setSaid(`${count} measured values entered on “${now.source}”, marked “measured”. Look at its verdict.`);
    });
  return (
    <>
      <p>
        Enters force and draw-in as measured into the stress check that a stressing record is linked to. The design's
        values stay beside them; empty the cells there to go back.
      </p>
      {(problem || failure) && (
        <p class="kb-problem" role="alert">
          {problem || failure}
        </p>
      )}
      <p>{sheet === undefined ? "Select a cell of a stressing record." : <>Looks at {<strong>{sheet}</strong>}.</>}</p>
      <button type="button" disabled={sheet === undefined || busy} onClick={() => void read()}>
        Read the record
      </button>
      {measured && (
        <>
          <p>
            Verdict of the record: <strong>{measured.verdict}</strong>. Linked to{" "}
            <button type="button" class="kb-link" onClick={() => go({ sheet: measured.source, ...measured.mark })}>
              {measured.source}
            </button>
            .
          </p>
          <table class="kb-table">
            <thead>
              <tr>
                <th scope="col">tendon</th>
                <th scope="col">value</th>
                <th scope="col">measured</th>
                <th scope="col">in the stress check</th>
              </tr>
            </thead>
            <tbody>
              {measured.values.map(({ of, text, unit, measured: value, now }) => (
                <tr key={`${of} ${text}`}>
                  <td>{of}</td>
                  <td>{text}</td>
                  <td>
                    {shown(value)} {unit}
                  </td>
                  <td>{shown(now)}</td>
                </tr>
              ))}
            </tbody>
          </table>
          {measured.missing.length > 0 && <p>Not measured yet: {measured.missing.join("; ")}.</p>}
          {measured.verdict !== "OK" && (
            <p class="kb-hint">
              The record does not say OK: enter its values only by the engineer's decision, to see what they mean for
              the member.
            </p>
          )}
          {measured.marked !== "" && measured.marked !== "measured" && (
            <p class="kb-hint">“{measured.marked}” beside these inputs is replaced by “measured”.</p>
          )}
          <button type="button" disabled={busy || measured.values.length === 0} onClick={() => void enter()}>
            Enter in the stress check
          </button>
        </>
      )}
      <div role="status">{said && <p class="kb-done">{said}</p>}</div>
    </>
  );
}
