import { useState } from "preact/hooks";
import { calculationNote, collect, tracerOf, type TracedCell } from "../../src/checker/index.ts";
import type { Host } from "../../src/hosts/index.ts";
import { Paper } from "../paper/paper.tsx";
import { now } from "../when.ts";
import type { Libraries } from "./libraries.ts";

const depths = [
  [1, "one step back"],
  [2, "two steps back"],
  [3, "three steps back"],
  [5, "five steps back"],
  [Infinity, "down to the inputs"],
] as const;

/** Without what file systems do not take. */
const fileName = (text: string): string =>
  `${text
    .replace(/[^\p{L}\p{N}]+/gu, "-")
    .replace(/^-|-$/g, "")
    .slice(0, 80)}.html`;

/** How a value comes about as a document: how far it goes back, and the ways to keep it. */
export function NoteForm({
  host,
  cell,
  libraries,
}: {
  readonly host: Host;
  readonly cell: TracedCell;
  readonly libraries: Libraries | undefined;
}) {
  const [depth, setDepth] = useState(2);
  if (!libraries) return null;
  const make = async (): Promise<string> => {
    const tracer = tracerOf(host);
    const collected = await collect(tracer, cell.place, { depth: depths[depth]![0] });
    const sheet = await tracer.knowledge.of(cell.place.sheet);
    return calculationNote(
      collected,
      { date: now(), host: host.name, depth: depths[depth]![0], ...(sheet && { sheet }) },
      { math: libraries.math, mathml: libraries.mathml },
    );
  };
  return (
    <div class="kb-note">
      <label for="kb-note-depth">Calculation note: how far it goes</label>
      <select
        id="kb-note-depth"
        value={String(depth)}
        onChange={(event) => setDepth(Number(event.currentTarget.value))}
      >
        {depths.map(([, text], i) => (
          <option key={text} value={String(i)}>
            {text}
          </option>
        ))}
      </select>
      <Paper
        title="Calculation note"
        fileName={fileName(`Calculation note ${cell.place.sheet} ${cell.address}`)}
        make={make}
      />
    </div>
  );
}
