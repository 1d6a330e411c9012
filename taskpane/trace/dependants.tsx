import { useEffect, useState } from "preact/hooks";
import { tracerOf, type Branch } from "../../src/checker/index.ts";
import type { Host, Place } from "../../src/hosts/index.ts";
import { whyNot } from "../loading.ts";
import { LabelWords, PlaceLink } from "./originLink.tsx";

/** More than this are shown when they are asked for. */
const few = 12;
/** Beyond this their labels are not read. */
const most = 300;

interface Found {
  readonly branches: readonly Branch[];
  readonly count: number;
}

/** The cells whose formulas use this one, asked for when it is opened. */
export function Dependants({
  host,
  place,
  version,
  go,
}: {
  readonly host: Host;
  readonly place: Place;
  readonly version: unknown;
  readonly go: (to: Place) => void;
}) {
  const [open, setOpen] = useState(false);
  const [found, setFound] = useState<Found | "unknown" | undefined>();
  const [problem, setProblem] = useState("");
  const [all, setAll] = useState(false);
  useEffect(() => setAll(false), [place]);
  useEffect(() => {
    if (!open) return;
    let live = true;
    setFound(undefined);
    setProblem("");
    void (async () => {
      try {
        const places = await host.dependants(place);
        const branches = places && (await tracerOf(host).branchesAt(places.slice(0, most), place.sheet));
        if (live) setFound(branches ? { branches, count: places.length } : "unknown");
      } catch (error) {
        if (live) setProblem(`The dependants could not be read: ${whyNot(error)}.`);
      }
    })();
    return () => {
      live = false;
    };
  }, [host, place, version, open]);
  const shown = found && found !== "unknown" ? found.branches.slice(0, all ? most : few) : [];
  return (
    <details class="kb-group" onToggle={(event) => setOpen(event.currentTarget.open)}>
      <summary>What uses this value</summary>
      <div class="kb-grouped" role="status">
        {problem && <p class="kb-problem">{problem}</p>}
        {!problem && found === undefined && open && <p class="kb-hint">Reading …</p>}
        {found === "unknown" && <p>This program does not tell which cells use this one.</p>}
        {found &&
          found !== "unknown" &&
          (found.count === 0 ? (
            <p>No formula refers to this cell directly.</p>
          ) : (
            <>
              <p>
                {found.count} {found.count === 1 ? "formula refers" : "formulas refer"} to this cell directly.
              </p>
              <ul class="kb-precedents">
                {shown.map((b) => (
                  <li key={b.key}>
                    <PlaceLink place={b.place!} address={b.address} label={b.label} go={go} />{" "}
                    <LabelWords label={b.label} symbol /> <b>{b.text}</b>
                    {b.unit && ` ${b.unit}`}
                  </li>
                ))}
              </ul>
              {found.count > shown.length &&
                (all ? (
                  <p class="kb-hint">{found.count - shown.length} more are not listed.</p>
                ) : (
                  <button type="button" onClick={() => setAll(true)}>
                    Show {found.count > most ? `the first ${most}` : `all ${found.count}`}
                  </button>
                ))}
            </>
          ))}
      </div>
    </details>
  );
}
