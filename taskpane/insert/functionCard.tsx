import {
  allowedText,
  blankText,
  equationFor,
  everydayText,
  ownCopyAdvice,
  type Parameter,
} from "../../src/core/index.ts";
import { equationTex } from "../../src/typeset/index.ts";
import { Equation } from "../trace/equation.tsx";
import type { Libraries } from "../trace/libraries.ts";
import { Sentence, TradeSymbol } from "../trace/tradeSymbol.tsx";
import { sourceWords } from "./block.ts";
import type { DesignFunction } from "./search.ts";

/** One line of what an argument takes: unit, range, default, choices. */
export function takes(parameter: Parameter): string {
  const fallback = [
    "default" in parameter && parameter.default !== undefined ? `default ${parameter.default}` : "",
    blankText(parameter),
  ]
    .filter(Boolean)
    .join("; ");
  switch (parameter.kind) {
    case "number":
      return [
        allowedText(parameter) || (parameter.unit === "–" ? "a number" : parameter.unit),
        parameter.whole ? "whole number" : "",
        parameter.typical ? `usually ${everydayText(parameter)}` : "",
        fallback,
      ]
        .filter(Boolean)
        .join("; ");
    case "choice":
      return [parameter.values.map((v) => v.value).join(", "), fallback].filter(Boolean).join("; ");
    case "table":
      if (parameter.kinds) return Object.values(parameter.kinds.tables).map(takes).join("; or ");
      return [
        `a range with columns ${Object.values(parameter.columns)
          .map((c) => `${c.text}${c.kind === "number" && c.unit !== "–" ? ` in ${c.unit}` : ""}`)
          .join("; ")}`,
        fallback,
      ]
        .filter(Boolean)
        .join("; ");
    case "text":
      return "text";
  }
}

/** What a function says about itself. */
export function FunctionCard({
  of,
  libraries,
}: {
  readonly of: DesignFunction;
  readonly libraries: Libraries | undefined;
}) {
  const { formula } = of;
  return (
    <details class="kb-group" open>
      <summary>What it computes</summary>
      <div class="kb-about">
        <p>
          <Sentence of={formula.summary} />.
        </p>
        {Object.entries(formula.steps).map(([name, step]) =>
          "lookup" in step ? null : (
            <Equation
              key={name}
              libraries={libraries}
              plain={equationFor(step)}
              tex={libraries ? equationTex(libraries.math, formula, name) : ""}
            />
          ),
        )}
        <p class="kb-from">
          Gives <TradeSymbol of={formula.result.symbol} /> {formula.result.text}
          {formula.result.unit !== "–" && `, in ${formula.result.unit}`}.
        </p>
        <p class="kb-from">
          {sourceWords(of)}. {formula.source.key !== "mechanics" && ownCopyAdvice}
        </p>
        {formula.notes && (
          <ul>
            {formula.notes.map((n) => (
              <li key={n}>
                <Sentence of={n} />
              </li>
            ))}
          </ul>
        )}
      </div>
    </details>
  );
}
