import { hasSymbol } from "../../src/typeset/index.ts";
import { Sentence, TradeSymbol } from "../trace/tradeSymbol.tsx";
import { cellKey, combinations, textOf, type Field, type FieldGroup, type FieldTable, type Typed } from "./fields.ts";

interface FormProps {
  readonly typed: Typed;
  readonly problems: ReadonlyMap<string, string>;
  readonly put: (key: string, text: string) => void;
}

const elementId = (key: string): string => `kb-in-${key.replace(/[^A-Za-z0-9_]/g, "-")}`;

function Control({
  field,
  id,
  typed,
  problems,
  put,
  label,
  describedBy,
}: FormProps & { readonly field: Field; readonly id: string; readonly label?: string; readonly describedBy?: string }) {
  const value = textOf(field, typed, id);
  const problem = problems.get(id);
  const shared = {
    id: elementId(id),
    value,
    "aria-invalid": problem ? ("true" as const) : ("false" as const),
    ...(label && { "aria-label": label }),
    "aria-describedby":
      [problem ? `${elementId(id)}-problem` : "", describedBy ?? ""].filter(Boolean).join(" ") || undefined,
  };
  if (field.choices)
    return (
      <select {...shared} onChange={(e) => put(id, e.currentTarget.value)}>
        {(value === "" || field.mayBeEmpty) && <option value="">{field.mayBeEmpty ? "none" : "choose"}</option>}
        {field.choices.map((c) => (
          <option key={c.value} value={String(c.value)}>
            {c.text === String(c.value) ? c.text : `${c.value} – ${c.text}`}
          </option>
        ))}
      </select>
    );
  return (
    <input
      {...shared}
      type="text"
      inputMode={field.freeText ? "text" : "decimal"}
      autocomplete="off"
      spellcheck={false}
      onInput={(e) => put(id, e.currentTarget.value)}
    />
  );
}

function Problem({ id, problems }: { readonly id: string; readonly problems: ReadonlyMap<string, string> }) {
  const problem = problems.get(id);
  return (
    <div id={`${elementId(id)}-problem`} class="kb-problem" aria-live="polite">
      {problem}
    </div>
  );
}

/** One input with its symbol, unit, allowed range and, while it is wrong, what is wrong. */
export function FieldInput({ field, ...form }: FormProps & { readonly field: Field }) {
  const hint = [
    field.allowed && `allowed ${field.allowed}`,
    field.default && `default ${field.default}`,
    field.bounds.whole && "whole number",
  ]
    .filter(Boolean)
    .join("; ");
  return (
    <div class="kb-field">
      <label for={elementId(field.id)}>
        {field.text} <TradeSymbol of={field.symbol} />
      </label>
      <div class="kb-entry">
        <Control field={field} id={field.id} {...form} describedBy={hint ? `${elementId(field.id)}-hint` : ""} />
        {field.unit !== "–" && <span class="kb-unit">{field.unit}</span>}
      </div>
      {hint && (
        <div class="kb-hint" id={`${elementId(field.id)}-hint`}>
          {hint}
        </div>
      )}
      <Problem id={field.id} problems={form.problems} />
    </div>
  );
}

/** Few columns: a grid with one row a member. */
function Grid({
  table,
  outer,
  ...form
}: FormProps & { readonly table: FieldTable; readonly outer: readonly number[] }) {
  const inner = table.over.at(-1)!;
  const title = outer.length > 0 ? outer.map((m, d) => table.over[d]![m]!).join(", ") : "";
  return (
    <table class="kb-grid">
      {title && <caption>{title}</caption>}
      <thead>
        <tr>
          <th scope="col">
            <span class="kb-hidden">no.</span>
          </th>
          {table.fields.map((f) => (
            <th
              key={f.id}
              scope="col"
              class={f.choices ? "kb-wide" : undefined}
              title={`${f.text}${f.allowed && `; allowed ${f.allowed}`}`}
            >
              {hasSymbol(f.symbol) ? <TradeSymbol of={f.symbol} /> : f.text}
              {f.unit !== "–" && (
                <>
                  {" "}
                  <small>{f.unit}</small>
                </>
              )}
            </th>
          ))}
        </tr>
      </thead>
      <tbody>
        {inner.map((label, i) => (
          <>
            <tr key={label}>
              <th scope="row">
                <span class="kb-hidden">{label}</span>
                <span aria-hidden="true">{i + 1}</span>
              </th>
              {table.fields.map((f) => (
                <td key={f.id}>
                  <Control
                    field={f}
                    id={cellKey(f.id, [...outer, i])}
                    {...form}
                    label={[title, label, f.text].filter(Boolean).join(", ")}
                  />
                </td>
              ))}
            </tr>
            {table.fields.some((f) => form.problems.has(cellKey(f.id, [...outer, i]))) && (
              <tr key={`${label} problems`}>
                <td colSpan={table.fields.length + 1}>
                  {table.fields.map((f) => (
                    <Problem key={f.id} id={cellKey(f.id, [...outer, i])} problems={form.problems} />
                  ))}
                </td>
              </tr>
            )}
          </>
        ))}
      </tbody>
    </table>
  );
}

/** Many columns: a card a member. */
function Cards({ table, ...form }: FormProps & { readonly table: FieldTable }) {
  return (
    <>
      {combinations(table.over).map((member) => {
        const title = member.map((m, d) => table.over[d]![m]!).join(", ");
        return (
          <fieldset key={title} class="kb-card">
            <legend>{title}</legend>
            {table.fields.map((f) => {
              const key = cellKey(f.id, member);
              return (
                <div key={f.id} class="kb-field kb-narrow">
                  <label for={elementId(key)}>
                    {f.text} <TradeSymbol of={f.symbol} />
                  </label>
                  <div class="kb-entry">
                    <Control field={f} id={key} {...form} />
                    {f.unit !== "–" && <span class="kb-unit">{f.unit}</span>}
                  </div>
                  <Problem id={key} problems={form.problems} />
                </div>
              );
            })}
          </fieldset>
        );
      })}
    </>
  );
}

function Table({ table, ...form }: FormProps & { readonly table: FieldTable }) {
  const ranges = table.fields.filter((f) => f.allowed);
  return (
    <>
      {table.note && (
        <p class="kb-hint">
          <Sentence of={table.note} />
        </p>
      )}
      {ranges.length > 0 && (
        <ul class="kb-hint kb-plain">
          {ranges.map((f) => (
            <li key={f.id}>
              <TradeSymbol of={f.symbol} /> {f.text}: {f.allowed}
            </li>
          ))}
        </ul>
      )}
      {table.fields.length > 3 ? (
        <Cards table={table} {...form} />
      ) : (
        combinations(table.over.slice(0, -1)).map((outer) => (
          <Grid key={outer.join("/")} table={table} outer={outer} {...form} />
        ))
      )}
    </>
  );
}

/** Keys of a group's inputs, for counting its problems. */
function keysOf(group: FieldGroup): readonly string[] {
  return [
    ...group.fields.map((f) => f.id),
    ...group.tables.flatMap((t) => combinations(t.over).flatMap((m) => t.fields.map((f) => cellKey(f.id, m)))),
  ];
}

/** A group that folds; what is wrong or still empty inside shows on its heading. */
export function Group({ group, open, ...form }: FormProps & { readonly group: FieldGroup; readonly open: boolean }) {
  const keys = keysOf(group);
  const wrong = keys.filter((k) => form.problems.has(k)).length;
  const fields = new Map([...group.fields, ...group.tables.flatMap((t) => t.fields)].map((f) => [f.id, f]));
  const empty = keys.filter((k) => {
    const f = fields.get(k.split("/")[0]!)!;
    return !f.freeText && !f.mayBeEmpty && textOf(f, form.typed, k).trim() === "";
  }).length;
  return (
    <details class="kb-group" open={open || wrong > 0}>
      <summary>
        {group.title}{" "}
        <span class="kb-count">{wrong > 0 ? `${wrong} to correct` : empty > 0 ? `${empty} empty` : "complete"}</span>
      </summary>
      <fieldset>
        <legend class="kb-hidden">{group.title}</legend>
        {group.fields.map((f) => (
          <FieldInput key={f.id} field={f} {...form} />
        ))}
        {group.tables.map((t) => (
          <Table key={t.id} table={t} {...form} />
        ))}
      </fieldset>
    </details>
  );
}

export function inputElement(key: string): HTMLElement | null {
  return document.getElementById(elementId(key));
}
