import { placeText } from "../../src/cells/index.ts";
import { useEffect, useState } from "preact/hooks";
import type { Host, Selection } from "../../src/hosts/index.ts";
import { whyNot } from "../loading.ts";
import { Sentence, TradeSymbol } from "../trace/tradeSymbol.tsx";
import { blockFor } from "./block.ts";
import { takes } from "./functionCard.tsx";
import type { DesignFunction } from "./search.ts";

interface Props {
  readonly of: DesignFunction;
  readonly host: Host;
  readonly selection: Selection | undefined;
  readonly insert: (
    sheet: string,
    cells: ReturnType<typeof blockFor>["cells"],
    result: ReturnType<typeof blockFor>["result"],
    area: ReturnType<typeof blockFor>["area"],
  ) => void;
  readonly busy: boolean;
}

/** Where a block would go, and what stands in its way. */
function usePlace(
  host: Host,
  sheet: string | undefined,
  area: ReturnType<typeof blockFor>["area"] | undefined,
  cells: ReturnType<typeof blockFor>["cells"],
): string {
  const [said, setSaid] = useState("");
  const key = JSON.stringify([sheet, area]);
  useEffect(() => {
    if (!sheet || !area) return;
    let live = true;
    host.read(sheet, area).then(
      (standing) => {
        const filled = cells.filter(({ row, column }) => {
          const cell = standing[row - area.row]?.[column - area.column];
          return cell !== undefined && (cell.value !== null || cell.formula !== undefined || cell.error !== undefined);
        });
        if (live)
          setSaid(
            filled.length === 0
              ? "All of these cells are empty."
              : `${filled.length} of these cells ${filled.length === 1 ? "is" : "are"} filled: select a cell with more room.`,
          );
      },
      (error: unknown) => {
        if (live) setSaid(whyNot(error));
      },
    );
    return () => {
      live = false;
    };
    // The cells follow from the area and the function.
  }, [key]);
  return said;
}

/** The way of the labelled block: a row an argument, and the formula. */
export function BlockForm({ of, host, selection, insert, busy }: Props) {
  const optional = of.parameters.filter((p) => p.optional);
  const tables = of.parameters.some((p) => p.parameter.kind === "table");
  const [included, setIncluded] = useState<ReadonlySet<string>>(new Set());
  const [rows, setRows] = useState("4");
  const tableRows = Math.max(1, Math.min(200, Math.round(Number(rows)) || 1));
  const block = blockFor(of, selection ?? { row: 0, column: 0 }, { included, tableRows });
  const said = usePlace(host, selection?.sheet, selection && block.area, block.cells);
  return (
    <section>
      <h4>Rows of the block</h4>
      <ul class="kb-plain kb-arguments">
        {of.parameters.map(({ name, parameter, optional: may }) => (
          <li key={name}>
            {may ? (
              <label class="kb-tick">
                <input
                  type="checkbox"
                  checked={included.has(name)}
                  onChange={(e) =>
                    setIncluded(
                      new Set(e.currentTarget.checked ? [...included, name] : [...included].filter((n) => n !== name)),
                    )
                  }
                />{" "}
                <span>
                  <TradeSymbol of={parameter.symbol} /> <Sentence of={parameter.text} /> (optional)
                </span>
              </label>
            ) : (
              <span>
                <TradeSymbol of={parameter.symbol} /> <Sentence of={parameter.text} />
              </span>
            )}
            <div class="kb-from">{takes(parameter)}</div>
          </li>
        ))}
      </ul>
      {optional.length > 0 && (
        <p class="kb-hint">Optional arguments without a tick are left out of the formula and take their default.</p>
      )}
      {tables && (
        <div class="kb-field">
          <label for="kb-block-rows">Rows of each range</label>
          <div class="kb-entry">
            <input
              id="kb-block-rows"
              type="text"
              inputMode="numeric"
              value={rows}
              onInput={(e) => setRows(e.currentTarget.value)}
            />
          </div>
        </div>
      )}
      {selection ? (
        <p>
          Goes to <span class="kb-address">{placeText({ sheet: selection.sheet, ...block.area }, "")}</span>, from the
          selected cell down. <span role="status">{said}</span>
        </p>
      ) : (
        <p>Select the cell where the block is to begin.</p>
      )}
      <button
        type="button"
        class="kb-primary"
        disabled={busy || !selection}
        onClick={() => {
          if (selection) insert(selection.sheet, block.cells, block.result, block.area);
        }}
      >
        Insert the block
      </button>
    </section>
  );
}
