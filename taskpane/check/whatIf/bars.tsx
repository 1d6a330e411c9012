import type { Address } from "../../../src/cells/index.ts";
import { useState } from "preact/hooks";
import { bySize, changeIn, effectOn, type NoStep, type Sensitivity, type Step } from "../../../src/checker/index.ts";
import { signed } from "./words.ts";

/** So many are shown before one asks for the others: those that matter stand first. */
const atOnce = 12;

/** One step as a bar from the middle; to the right the utilisation grows. */
function Bar({
  change,
  most,
  y,
  of,
}: {
  readonly change: number | undefined;
  readonly most: number;
  readonly y: number;
  readonly of: "down" | "up";
}) {
  if (change === undefined || change === 0) return null;
  const length = (98 * Math.abs(change)) / most;
  return <rect class={`kb-${of}`} x={change > 0 ? 100 : 100 - length} y={y} width={length} height="7" />;
}

function stepText(step: Step | NoStep, check: string | undefined): string {
  const change = changeIn(step, check);
  return change === undefined ? `${step.amount}: no answer` : `${step.amount}: ${signed(change)}`;
}

/** Inputs by the size of their effect, a bar for each of the two steps. */
export function Bars({
  all,
  check,
  go,
  now,
}: {
  readonly all: readonly Sensitivity[];
  readonly check: string | undefined;
  readonly go: (at: Address) => void;
  readonly now: string;
}) {
  const [whole, setWhole] = useState(false);
  const ranked = bySize(all, check);
  const acting = ranked.filter((s) => (effectOn(s, check) ?? 0) > 0);
  const idle = ranked.filter((s) => effectOn(s, check) === 0);
  const silent = ranked.filter((s) => effectOn(s, check) === undefined);
  const oneSided = ranked.filter((s) => effectOn(s, check) !== undefined && s.down.ok !== s.up.ok);
  // A whole number moves by far more than a share, and would flatten all other bars on their scale.
  const byShare = (s: Sensitivity): boolean => s.up.amount.includes("%") || s.down.amount.includes("%");
  const groups = [
    { title: "", of: acting.filter(byShare) },
    { title: "By a step of their own, on another scale", of: acting.filter((s) => !byShare(s)) },
  ].filter(({ of }) => of.length > 0);
  const key = (s: Sensitivity): string => `${s.input.id}/${s.cell ?? ""}`;
  return (
    <>
      <p class="kb-legend" aria-hidden="true">
        <span>
          <svg width="16" height="8">
            <rect class="kb-down" width="16" height="8" />
          </svg>{" "}
          input made smaller
        </span>
        <span>
          <svg width="16" height="8">
            <rect class="kb-up" width="16" height="8" />
          </svg>{" "}
          input made larger
        </span>
      </p>
      <p class="kb-hint">
        Change of {now}. To the right it grows, to the left it falls. Each bar's name goes to the input.
      </p>
      {acting.length === 0 && <p>No numeric input moves it at these steps.</p>}
      {groups.map(({ title, of }, g) => {
        const most = Math.max(...of.map((s) => effectOn(s, check)!));
        return (
          <div key={g}>
            {title && <h4>{title}</h4>}
            <ol class="kb-bars">
              {(whole ? of : of.slice(0, atOnce)).map((s) => (
                <li key={key(s)}>
                  <button type="button" class="kb-link" onClick={() => go(s.at)}>
                    {s.label}
                  </button>
                  <svg viewBox="0 0 200 18" preserveAspectRatio="none" aria-hidden="true">
                    <line x1="100" x2="100" y1="0" y2="18" />
                    <Bar change={changeIn(s.down, check)} most={most} y={1} of="down" />
                    <Bar change={changeIn(s.up, check)} most={most} y={10} of="up" />
                  </svg>
                  <span class="kb-numbers">
                    {stepText(s.down, check)} · {stepText(s.up, check)}
                  </span>
                </li>
              ))}
            </ol>
            {!whole && of.length > atOnce && (
              <button type="button" onClick={() => setWhole(true)}>
                Show {of.length - atOnce} smaller ones
              </button>
            )}
          </div>
        );
      })}
      {acting.length > 0 && (
        <details>
          <summary>As a table</summary>
          <div class="kb-scroll" tabIndex={0} role="group" aria-label="Sensitivities as a table">
            <table class="kb-table">
              <caption class="kb-hidden">Change of {now} by input</caption>
              <thead>
                <tr>
                  <th scope="col" class="kb-name">
                    input
                  </th>
                  <th scope="col">smaller by</th>
                  <th scope="col">change</th>
                  <th scope="col">larger by</th>
                  <th scope="col">change</th>
                  <th scope="col" class="kb-name">
                    governs (smaller; larger)
                  </th>
                </tr>
              </thead>
              <tbody>
                {acting.map((s) => (
                  <tr key={key(s)}>
                    <th scope="row" class="kb-name">
                      {s.label}
                    </th>
                    {[s.down, s.up].map((step, i) => {
                      const change = changeIn(step, check);
                      return [
                        <td key={`${i}a`}>{step.amount}</td>,
                        <td key={`${i}c`}>{change === undefined ? "–" : signed(change)}</td>,
                      ];
                    })}
                    <td class="kb-name">{[s.down, s.up].map((step) => (step.ok ? step.governs : "–")).join("; ")}</td>
                  </tr>
                ))}
              </tbody>
            </table>
          </div>
        </details>
      )}
      {oneSided.length > 0 && (
        <details>
          <summary>{oneSided.length} moved to one side only</summary>
          <ul>
            {oneSided.map((s) => (
              <li key={key(s)}>
                <button type="button" class="kb-link" onClick={() => go(s.at)}>
                  {s.label}
                </button>
                : {[s.down, s.up].flatMap((step) => (step.ok ? [] : [`${step.amount}: ${step.why}`])).join("; ")}
              </li>
            ))}
          </ul>
        </details>
      )}
      {idle.length > 0 && (
        <details>
          <summary>{idle.length} without effect on it</summary>
          <p>{idle.map(({ label }) => label).join("; ")}.</p>
        </details>
      )}
      {silent.length > 0 && (
        <details>
          <summary>{silent.length} without an answer</summary>
          <ul>
            {silent.map((s) => (
              <li key={key(s)}>
                <button type="button" class="kb-link" onClick={() => go(s.at)}>
                  {s.label}
                </button>
                : {s.up.ok ? "" : s.up.why}
              </li>
            ))}
          </ul>
        </details>
      )}
    </>
  );
}
