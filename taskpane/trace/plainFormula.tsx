import { numberOf, shownPieces, printed, symbolOf, type Origin, type TracedCell } from "../../src/checker/index.ts";
import type { Place } from "../../src/hosts/index.ts";
import { TradeSymbol } from "./tradeSymbol.tsx";
import { LabelWords, OriginLink, unitWords } from "./originLink.tsx";

function contents({ contents: cells, place, problem }: Origin): string {
  const all = cells.flat();
  if (problem !== undefined) return problem;
  if (all.length === 1) return printed(all[0]!);
  return place ? `${place.rows} × ${place.columns} cells` : "";
}

/** A formula in the symbols of the cells it refers to, and with their numbers put in. */
export function FormulaWords({ cell }: { readonly cell: TracedCell }) {
  if (cell.content.formula === undefined || cell.precedents.length === 0) return null;
  const pieces = shownPieces(cell.content.formula, cell.originOf);
  const symbols = pieces.some((p) => symbolOf(p) !== p.text);
  return (
    <div class="kb-formula">
      {symbols && (
        <p>
          <span class="kb-hidden">In symbols: </span>
          {cell.label?.symbol && (
            <>
              <TradeSymbol of={cell.label.symbol} /> ={" "}
            </>
          )}
          {pieces.map((p, i) =>
            symbolOf(p) === p.text ? <code key={i}>{p.text}</code> : <TradeSymbol key={i} of={symbolOf(p)} />,
          )}
        </p>
      )}
      <p>
        <span class="kb-hidden">With numbers: </span>
        <code>= {pieces.map((p) => numberOf(p)).join("")}</code>
      </p>
    </div>
  );
}

/** What a formula refers to, with labels and values. */
export function Precedents({ cell, go }: { readonly cell: TracedCell; readonly go: (to: Place) => void }) {
  return (
    <>
      <h3>Refers to</h3>
      {cell.precedents.length === 0 ? (
        <p>This formula refers to no cell.</p>
      ) : (
        <ul class="kb-precedents">
          {cell.precedents.map((p) => (
            <li key={p.text}>
              <OriginLink origin={p} go={go} />
              {p.reference.kind !== "cells" && p.place && (
                <>
                  {" "}
                  <code>{p.text}</code>
                </>
              )}{" "}
              <LabelWords label={p.label} symbol /> <b>{contents(p)}</b>
              {p.contents.flat().length === 1 && typeof p.contents[0]![0]!.value === "number"
                ? ` ${unitWords(p.label)}`
                : ""}
            </li>
          ))}
        </ul>
      )}
    </>
  );
}
