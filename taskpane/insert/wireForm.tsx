import { type Address, placeText } from "../../src/cells/index.ts";
import { useEffect, useState } from "preact/hooks";
import type { FunctionParameter } from "../../functions/index.ts";
import { CellsNotEmpty, type Host, type InsertedCell, type Selection } from "../../src/hosts/index.ts";
import { whyNot } from "../loading.ts";
import { Sentence, TradeSymbol } from "../trace/tradeSymbol.tsx";
import { callText } from "./formulaText.ts";
import { takes } from "./functionCard.tsx";
import type { DesignFunction } from "./search.ts";
import { bindingText, cellNotice, shapeFault, typedFault, type Binding } from "./wire.ts";

interface Props {
  readonly of: DesignFunction;
  readonly host: Host;
  readonly selection: Selection | undefined;
  readonly insert: (sheet: string, cells: readonly InsertedCell[], result: Address) => void;
  readonly busy: boolean;
}

/** One argument: its cells picked or its value typed. */
function ArgumentPick({
  parameter: { name, parameter, optional },
  binding,
  bind,
  host,
  selection,
  sheet,
}: {
  readonly parameter: FunctionParameter;
  readonly binding: Binding | undefined;
  readonly bind: (binding: Binding | undefined) => void;
  readonly host: Host;
  readonly selection: Selection | undefined;
  readonly sheet: string;
}) {
  const [typed, setTyped] = useState("");
  const [problem, setProblem] = useState("");
  const [notice, setNotice] = useState("");
  const take = (): void => {
    if (!selection) return setProblem("Select a cell of the sheet first.");
    const fault = shapeFault(parameter, selection);
    if (fault) return setProblem(`${fault[0]!.toUpperCase()}${fault.slice(1)}.`);
    setProblem("");
    setNotice("");
    bind({ kind: "cells", at: selection });
    host.read(selection.sheet, selection).then(
      (cells) => {
        const first = cells[0]?.[0];
        if (!first || parameter.kind === "table") return;
        const said = cellNotice(parameter, first);
        setNotice(said ? `Look again: ${said}.` : `It holds ${first.text}.`);
      },
      (error: unknown) => setNotice(whyNot(error)),
    );
  };
  const type = (text: string): void => {
    setTyped(text);
    setNotice("");
    if (text.trim() === "") {
      setProblem("");
      return bind(undefined);
    }
    const fault = typedFault(text);
    setProblem(fault ? `Here ${fault}.` : "");
    bind(fault ? undefined : { kind: "typed", text });
  };
  const clear = (): void => {
    setTyped("");
    setProblem("");
    setNotice("");
    bind(undefined);
  };
  return (
    <li class={binding ? "kb-bound" : undefined}>
      <div>
        <TradeSymbol of={parameter.symbol} /> <Sentence of={parameter.text} />
        {optional && " (optional)"}
      </div>
      <div class="kb-from">{takes(parameter)}</div>
      {parameter.kind === "choice" ? (
        <select
          aria-label={`Choice for ${parameter.text}`}
          value={binding?.kind === "choice" ? String(binding.value) : ""}
          onChange={(e) => {
            const chosen = parameter.values.find((v) => String(v.value) === e.currentTarget.value);
            setNotice("");
            bind(chosen && { kind: "choice", value: chosen.value });
          }}
        >
          <option value="">{binding?.kind === "cells" ? "from the sheet" : "choose, or take a cell"}</option>
          {parameter.values.map((v) => (
            <option key={v.value} value={String(v.value)}>
              {String(v.value) === v.text ? v.text : `${v.value} – ${v.text}`}
            </option>
          ))}
        </select>
      ) : (
        parameter.kind !== "table" && (
          <input
            type="text"
            aria-label={`Typed value or cell for ${parameter.text}`}
            aria-invalid={problem !== ""}
            placeholder="number, cell or name"
            value={binding?.kind === "cells" ? bindingText(binding, sheet, false) : typed}
            onInput={(e) => type(e.currentTarget.value)}
            id={`kb-wire-${name}`}
          />
        )
      )}
      <div class="kb-pick">
        <button type="button" onClick={take}>
          Take {selection ? placeText(selection, sheet) : "selected cells"}
          <span class="kb-hidden"> for {parameter.text}</span>
        </button>
        {binding && (
          <button type="button" onClick={clear}>
            Clear<span class="kb-hidden"> {parameter.text}</span>
          </button>
        )}
        {binding?.kind === "cells" && <span class="kb-from">from {placeText(binding.at, sheet)}</span>}
      </div>
      <div class="kb-problem" aria-live="polite">
        {problem}
      </div>
      {notice && (
        <div class="kb-hint" role="status">
          {notice}
        </div>
      )}
    </li>
  );
}

/** The way of cells that are there already: each argument picked, the formula written into one empty cell. */
export function WireForm({ of, host, selection, insert, busy }: Props) {
  const [target, setTarget] = useState<Selection>();
  const [bindings, setBindings] = useState<ReadonlyMap<string, Binding>>(new Map());
  const [absolute, setAbsolute] = useState(false);
  const [problem, setProblem] = useState("");
  useEffect(() => setProblem(""), [target]);
  const sheet = target?.sheet ?? selection?.sheet ?? "";
  const text = callText(of, ({ name }) => {
    const binding = bindings.get(name);
    return binding && bindingText(binding, sheet, absolute);
  });
  const open = of.parameters.filter(({ name, optional }) => !optional && !bindings.has(name));
  const aim = (): void => {
    if (!selection) return setProblem("Select a cell of the sheet first.");
    const at = { ...selection, rows: 1, columns: 1 };
    host.read(at.sheet, at).then(
      (cells) => {
        const cell = cells[0]?.[0];
        if (cell && (cell.value !== null || cell.formula !== undefined || cell.error))
          setProblem(new CellsNotEmpty(at.sheet, [at]).message);
        else setTarget(at);
      },
      (error: unknown) => setProblem(whyNot(error)),
    );
  };
  return (
    <section>
      <h4>Cell of the result</h4>
      <div class="kb-pick">
        <button type="button" onClick={aim}>
          Put the result in {selection ? placeText({ ...selection, rows: 1, columns: 1 }, "") : "the selected cell"}
        </button>
        {target && <span class="kb-from">goes to {placeText(target, "")}</span>}
      </div>
      <div class="kb-problem" aria-live="polite">
        {problem}
      </div>
      <h4>Arguments</h4>
      <p class="kb-hint">
        Select a cell or range on the sheet, then take it for an argument; or type a number, a cell or a name.
      </p>
      <ol class="kb-plain kb-arguments">
        {of.parameters.map((p) => (
          <ArgumentPick
            key={p.name}
            parameter={p}
            host={host}
            selection={selection}
            sheet={sheet}
            binding={bindings.get(p.name)}
            bind={(binding) =>
              setBindings((before) => {
                const next = new Map(before);
                if (binding) next.set(p.name, binding);
                else next.delete(p.name);
                return next;
              })
            }
          />
        ))}
      </ol>
      <label class="kb-tick">
        <input type="checkbox" checked={absolute} onChange={(e) => setAbsolute(e.currentTarget.checked)} />{" "}
        <span>fixed references, such as $B$4, that stay when the formula is copied</span>
      </label>
      <p class="kb-formula">
        <code>{text}</code>
      </p>
      <p class="kb-hint" role="status">
        {!target ? "The cell of the result is not chosen yet. " : ""}
        {open.length > 0 ? `Still open: ${open.map(({ parameter }) => parameter.text).join("; ")}.` : ""}
      </p>
      <button
        type="button"
        class="kb-primary"
        disabled={busy || !target || open.length > 0}
        onClick={() => {
          if (target) insert(target.sheet, [{ row: target.row, column: target.column, formula: text }], target);
        }}
      >
        Insert the formula
      </button>
    </section>
  );
}
