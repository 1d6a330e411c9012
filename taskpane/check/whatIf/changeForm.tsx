import { useId, useState } from "preact/hooks";
import type { Amount, InputChange, SheetInput } from "../../../src/checker/index.ts";
import { held, titleOf, typedNumber } from "./words.ts";

/** What has been chosen and typed of a change. */
export interface Draft {
  readonly input: SheetInput | undefined;
  readonly cell: number | undefined;
  readonly kind: Amount["kind"];
  readonly typed: string;
}
export const noDraft: Draft = { input: undefined, cell: undefined, kind: "percent", typed: "" };

/** The change a draft stands for; a text that says what is missing. */
export function changeOf({ input, cell, kind, typed }: Draft): InputChange | string {
  if (!input) return "Choose an input.";
  const which = cell === undefined ? {} : { cell };
  if (input.kind === "choice") {
    const chosen = input.spec.choices?.find(({ value }) => String(value) === typed);
    return chosen ? { input, ...which, amount: { kind: "to", value: chosen.value } } : "Choose another value.";
  }
  if (kind === "to" && typed.trim() === "") return { input, ...which, amount: { kind: "to", value: null } };
  const value = typedNumber(typed);
  return value === undefined
    ? `“${typed}” is not a number; type one, such as 5 or −2.5.`
    : { input, ...which, amount: { kind, value } };
}

/** "fck · … : −10 %" */
export function changeText({ input, cell, amount }: InputChange): string {
  const where = cell === undefined ? (input.cells.length > 1 ? ", all cells" : "") : `, ${input.cells[cell]!.label}`;
  const sign = (n: number): string => (n < 0 ? `−${Math.abs(n)}` : `+${n}`);
  const unit = input.unit === "–" ? "" : ` ${input.unit}`;
  const how =
    amount.kind === "to"
      ? `= ${held(amount.value, input.unit)}`
      : amount.kind === "by"
        ? `${sign(amount.value)}${unit}`
        : `${sign(amount.value)} %`;
  return `${titleOf(input)}${where}: ${how}`;
}

function meets(input: SheetInput, query: string): boolean {
  const text = `${input.symbol} ${input.description} ${input.item} ${input.id}`.toLowerCase();
  return query
    .toLowerCase()
    .split(/\s+/)
    .every((word) => text.includes(word));
}

interface Props {
  readonly inputs: readonly SheetInput[];
  readonly draft: Draft;
  readonly set: (draft: Draft) => void;
  /** Takes the input of the cell that is selected on the sheet. */
  readonly takeSelected: () => void;
}

/** Which input is changed, and by how much. */
export function ChangeForm({ inputs, draft, set, takeSelected }: Props) {
  const id = useId();
  const [query, setQuery] = useState("");
  const { input, cell, kind, typed } = draft;
  const found = inputs.filter((one) => one === input || meets(one, query.trim()));
  const choose = (next: SheetInput | undefined): void =>
    set({
      input: next,
      cell: undefined,
      kind: next && next.cells.every(({ value }) => typeof value === "number" && value !== 0) ? kind : "to",
      typed: "",
    });
  const present = input?.cells[cell ?? 0];
  return (
    <>
      <label for={`${id}-find`}>Find an input by word, symbol or number</label>
      <input
        id={`${id}-find`}
        type="text"
        autocomplete="off"
        spellcheck={false}
        value={query}
        onInput={(e) => setQuery(e.currentTarget.value)}
      />
      <label class="kb-hidden" for={`${id}-input`}>
        Input
      </label>
      <select
        id={`${id}-input`}
        class="kb-inputs"
        size={7}
        value={input?.id ?? ""}
        onChange={(e) => choose(inputs.find((one) => one.id === e.currentTarget.value))}
      >
        {found.map((one) => (
          <option key={one.id} value={one.id}>
            {one.item} {titleOf(one)}
          </option>
        ))}
      </select>
      <p class="kb-hint" role="status">
        {found.length === 0 ? "No input has all of these words." : ""}
      </p>
      <button type="button" onClick={takeSelected}>
        Take the cell selected on the sheet
      </button>
      {input && (
        <div class="kb-change">
          <p>
            <strong>{titleOf(input)}</strong>
            {input.cells.length === 1 && <>, now {held(present!.value, input.unit)}</>}
          </p>
          {input.kind === "number" && input.allowed && <p class="kb-hint">Allowed: {input.allowed}</p>}
          {input.cells.length > 1 && (
            <>
              <label for={`${id}-cell`}>Which</label>
              <select
                id={`${id}-cell`}
                value={String(cell ?? "")}
                onChange={(e) =>
                  set({ ...draft, cell: e.currentTarget.value === "" ? undefined : Number(e.currentTarget.value) })
                }
              >
                <option value="">all {input.cells.length} cells together</option>
                {input.cells.map((one, i) => (
                  <option key={i} value={String(i)}>
                    {one.label}, now {held(one.value, input.unit)}
                  </option>
                ))}
              </select>
            </>
          )}
          {input.kind === "choice" ? (
            <>
              <label for={`${id}-choice`}>Changed to</label>
              <select
                id={`${id}-choice`}
                value={typed}
                onChange={(e) => set({ ...draft, typed: e.currentTarget.value })}
              >
                <option value="">choose</option>
                {input.spec.choices!.map(({ value, text }) => (
                  <option key={String(value)} value={String(value)}>
                    {String(value)}: {text}
                  </option>
                ))}
              </select>
            </>
          ) : (
            <div class="kb-amount">
              <div>
                <label for={`${id}-kind`}>How</label>
                <select
                  id={`${id}-kind`}
                  value={kind}
                  onChange={(e) => set({ ...draft, kind: e.currentTarget.value as Amount["kind"] })}
                >
                  <option value="percent">by per cent</option>
                  <option value="by">by an amount</option>
                  <option value="to">to a value</option>
                </select>
              </div>
              <div>
                <label for={`${id}-typed`}>
                  {kind === "percent"
                    ? "Per cent, with sign"
                    : kind === "by"
                      ? `Amount${input.unit === "–" ? "" : ` in ${input.unit}`}, with sign`
                      : `Value${input.unit === "–" ? "" : ` in ${input.unit}`}`}
                </label>
                <input
                  id={`${id}-typed`}
                  type="text"
                  inputMode="decimal"
                  autocomplete="off"
                  value={typed}
                  onInput={(e) => set({ ...draft, typed: e.currentTarget.value })}
                />
              </div>
            </div>
          )}
        </div>
      )}
    </>
  );
}
