import { useState } from "preact/hooks";
import type { Lockable } from "./aboutTemplate.ts";

interface Props {
  /** Of the elements: unique in the panel. */
  readonly id: string;
  readonly title: string;
  readonly hint: string;
  readonly all: readonly Lockable[];
  readonly ticked: ReadonlySet<string>;
  readonly tick: (next: ReadonlySet<string>) => void;
}

/** More than these are found by their first letters. */
const few = 12;

/** Rows to tick, folded away; long lists have a field that finds some of them. */
export function TickList({ id, title, hint, all, ticked, tick }: Props) {
  const [isOpen, setOpen] = useState(false);
  const [wanted, setWanted] = useState("");
  const words = wanted.toLowerCase().split(/\s+/).filter(Boolean);
  const found = all.filter((one) => words.every((word) => `${one.id} ${one.text}`.toLowerCase().includes(word)));
  const turn = (one: string): void => {
    const next = new Set(ticked);
    if (!next.delete(one)) next.add(one);
    tick(next);
  };
  if (all.length === 0) return null;
  return (
    <details class="kb-kind" onToggle={(event) => setOpen(event.currentTarget.open)}>
      <summary>
        {title}: {all.filter((one) => ticked.has(one.id)).length} of {all.length}
      </summary>
      {isOpen && (
        <fieldset>
          <legend class="kb-hidden">{title}</legend>
          <p class="kb-hint">{hint}</p>
          {all.length > few && (
            <div class="kb-field kb-newname">
              <label for={`${id}-find`}>Find by words or id</label>
              <input
                id={`${id}-find`}
                type="text"
                value={wanted}
                autocomplete="off"
                onInput={(event) => setWanted(event.currentTarget.value)}
              />
            </div>
          )}
          <div class="kb-ticks">
            {found.map((one) => (
              <label class="kb-tick" key={one.id}>
                <input type="checkbox" checked={ticked.has(one.id)} onChange={() => turn(one.id)} />
                <span>
                  {one.text} <code>{one.id}</code>
                </span>
              </label>
            ))}
            {found.length === 0 && <p class="kb-hint">None has these words.</p>}
          </div>
        </fieldset>
      )}
    </details>
  );
}
