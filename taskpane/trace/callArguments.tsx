import {
  allowedText,
  everydayText,
  type Argument,
  type Declaration,
  type Parameter,
  type Table,
  type Trace,
} from "../../src/core/index.ts";
import { takesDefault, type Flag, type TracedCall, type TracedOrigin } from "../../src/checker/index.ts";
import type { Place } from "../../src/hosts/index.ts";
import { hasSymbol, numberText, withUnit } from "../../src/typeset/index.ts";
import { LabelWords, OriginLink } from "./originLink.tsx";
import { Sentence, TradeSymbol } from "./tradeSymbol.tsx";

function given(value: Argument, parameter: Parameter): string {
  if (value === null || value === undefined || value === "") return "empty";
  if (typeof value === "number")
    return parameter.kind === "number" ? withUnit(value, parameter.unit) : numberText(value);
  if (typeof value === "boolean") return value ? "TRUE" : "FALSE";
  if (typeof value === "string") return `“${value}”`;
  if (parameter.kind === "table") return `${value.length} row${value.length === 1 ? "" : "s"}`;
  return `${value.length} × ${value[0]?.length ?? 0} cells`;
}

const flagWords: Readonly<Record<Flag["kind"], string>> = {
  unit: "unit differs",
  sort: "sort differs",
  swapped: "swapped?",
  text: "text",
  empty: "empty",
  unusual: "unusual",
};

/** The arguments of a call in order, each with its value, ranges and where it comes from. */
export function CallArguments({
  of,
  traced,
  go,
}: {
  readonly of: Declaration;
  readonly traced: TracedCall;
  readonly go: (to: Place) => void;
}) {
  return (
    <ol class="kb-arguments">
      {Object.entries(of.params).map(([name, parameter], i) => (
        <ArgumentRow
          key={name}
          name={name}
          parameter={parameter}
          origin={traced.arguments[i]}
          trace={traced.trace}
          atFault={traced.refused?.parameter === name}
          flags={traced.flags.filter((f) => f.parameter === name)}
          go={go}
        />
      ))}
    </ol>
  );
}

interface RowProps {
  readonly name: string;
  readonly parameter: Parameter;
  readonly origin: TracedOrigin | undefined;
  readonly trace: Trace | undefined;
  readonly atFault: boolean;
  readonly flags: readonly Flag[];
  readonly go: (to: Place) => void;
}

function ArgumentRow({ name, parameter: declared, origin, trace, atFault, flags, go }: RowProps) {
  const traced = trace?.arguments.find((a) => a.name === name);
  const parameter = traced?.parameter ?? declared;
  const isLeftOut = origin?.error === undefined && takesDefault(parameter, origin?.value);
  const blank = isLeftOut && "blank" in parameter ? parameter.blank : undefined;
  const isDefault = isLeftOut && blank === undefined;
  const value: Argument = isDefault && "default" in parameter ? parameter.default : (origin?.value ?? null);
  const chosen =
    parameter.kind === "choice" ? parameter.values.find((v) => v.value === (traced?.value ?? value))?.text : undefined;
  const kinds = [...new Set(flags.map(({ kind }) => kind))];
  return (
    <li class={atFault || kinds.some((k) => k !== "unusual") ? "kb-at-fault" : undefined}>
      <div class="kb-argument">
        <span>
          <TradeSymbol of={parameter.symbol} /> <Sentence of={parameter.text} />
        </span>{" "}
        <b>
          {blank ?? given(value, parameter)}
          {chosen && ` (${chosen})`}
        </b>
      </div>
      <div class="kb-from">
        {isDefault && parameter.kind !== "table" && <span class="kb-tag">default</span>}
        {atFault && <span class="kb-tag kb-tag-bad">refused</span>}
        {kinds.map((kind) => (
          <span key={kind} class={`kb-tag ${kind === "unusual" ? "kb-tag-open" : "kb-tag-bad"}`}>
            {flagWords[kind]}
          </span>
        ))}
        <Whence origin={origin} go={go} />
      </div>
      {parameter.kind === "number" && <Ranges allowed={allowedText(parameter)} typical={everydayText(parameter)} />}
      {parameter.kind === "choice" && (
        <details>
          <summary>Choices</summary>
          <ul>
            {parameter.values.map((v) => (
              <li key={v.value}>
                <code>{v.value}</code> {v.text}
              </li>
            ))}
          </ul>
        </details>
      )}
      {parameter.kind === "table" && <Records parameter={parameter} value={value} name={name} />}
    </li>
  );
}

/** The cell, the name or the expression an argument comes from. */
function Whence({ origin, go }: { readonly origin: TracedOrigin | undefined; readonly go: (to: Place) => void }) {
  if (!origin || origin.written.kind === "missing") return <>not given</>;
  const { written, origin: own } = origin;
  if (written.kind === "literal") return <>typed in the formula</>;
  if (written.kind === "call")
    return (
      <>
        the result of <code>{written.text}</code>
      </>
    );
  if (own?.place)
    return (
      <>
        <OriginLink origin={own} go={go} />
        {own.reference.kind !== "cells" && (
          <>
            {" "}
            <code>{written.text}</code>
          </>
        )}{" "}
        <LabelWords label={own.label} />
        {own.problem !== undefined && `: ${own.problem}`}
      </>
    );
  if (own)
    return (
      <>
        <code>{written.text}</code>
        {own.problem !== undefined && `: ${own.problem}`}
      </>
    );
  return (
    <>
      from <code>{written.text}</code>
      {origin.origins.length > 0 && (
        <>
          :{" "}
          {origin.origins.slice(0, 6).map((o, i) => (
            <span key={o.text}>
              {i > 0 && "; "}
              <OriginLink origin={o} go={go} /> <LabelWords label={o.label} />
            </span>
          ))}
          {origin.origins.length > 6 && "; …"}
        </>
      )}
    </>
  );
}

function Ranges({ allowed, typical }: { readonly allowed: string; readonly typical: string }) {
  if (!allowed && !typical) return null;
  return (
    <div class="kb-from">
      {allowed && `allowed ${allowed}`}
      {allowed && typical && "; "}
      {typical && `usually ${typical}`}
    </div>
  );
}

function Records({
  parameter,
  value,
  name,
}: {
  readonly parameter: Table;
  readonly value: Argument;
  readonly name: string;
}) {
  const rows = Array.isArray(value)
    ? (value as readonly (readonly (number | string | boolean | null | undefined)[])[])
    : [];
  if (rows.length === 0) return null;
  const columns = Object.values(parameter.columns);
  return (
    <div class="kb-scroll" tabIndex={0} role="group" aria-label={`Values of ${parameter.text}`}>
      <table class="kb-table" id={`kb-range-${name}`}>
        <thead>
          <tr>
            {columns.map((c) => (
              <th key={c.key} scope="col" title={c.text}>
                {hasSymbol(c.symbol) ? <TradeSymbol of={c.symbol} /> : c.text}
                {c.kind === "number" && c.unit !== "–" && (
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
            <tr key={r}>
              {row.map((cell, c) => (
                <td key={c}>
                  {typeof cell === "number"
                    ? numberText(cell)
                    : cell === null || cell === undefined
                      ? "–"
                      : String(cell)}
                </td>
              ))}
            </tr>
          ))}
        </tbody>
      </table>
    </div>
  );
}
