import type { SpilledResult } from "../../src/checker/index.ts";
import { hasSymbol, numberText } from "../../src/typeset/index.ts";
import { TradeSymbol } from "./tradeSymbol.tsx";

/** The rows of a result that fills several cells; the one looked at is marked. */
export function SpillTable({
  spilled: { of, rows },
  at,
}: {
  readonly spilled: SpilledResult;
  readonly at: { readonly row: number; readonly column: number } | undefined;
}) {
  const columns = Object.entries(of.columns);
  return (
    <section>
      <h4>
        Result: {rows.length} {rows.length === 1 ? "row" : "rows"}
      </h4>
      <div class="kb-scroll" tabIndex={0} role="group" aria-label={`Rows of KERN.${of.id}`}>
        <table class="kb-table">
          <thead>
            <tr>
              <th scope="col">row</th>
              {columns.map(([key, c]) => (
                <th key={key} scope="col" title={c.text}>
                  {hasSymbol(c.symbol) ? <TradeSymbol of={c.symbol} /> : c.text}
                  {c.unit !== "–" && (
                    <>
                      {" "}
                      <small>{c.unit}</small>
                    </>
                  )}
                </th>
              ))}
            </tr>
          </thead>
          <tbody>
            {rows.map((row, r) => (
              <tr key={r} class={at?.row === r ? "kb-governs" : undefined}>
                <th scope="row">{r + 1}</th>
                {row.map((value, c) => (
                  <td key={c}>
                    {at?.row === r && at.column === c ? <mark>{numberText(value)}</mark> : numberText(value)}
                  </td>
                ))}
              </tr>
            ))}
          </tbody>
        </table>
      </div>
    </section>
  );
}
