import { useEffect, useState } from "preact/hooks";
import {
  linesOf,
  pathText,
  rootOf,
  tracerOf,
  type Branch,
  type TracedCell,
  type TreeLine,
} from "../../src/checker/index.ts";
import type { Host, Place } from "../../src/hosts/index.ts";
import { whyNot } from "../loading.ts";
import { LabelWords, PlaceLink } from "./originLink.tsx";

/** How a value comes about: what it is computed from, and what that is computed from, opened step by step. */
export function TreeView({
  host,
  cell,
  go,
}: {
  readonly host: Host;
  readonly cell: TracedCell;
  readonly go: (to: Place) => void;
}) {
  const root = rootOf(cell);
  const [open, setOpen] = useState<ReadonlySet<string>>(new Set());
  const [behind, setBehind] = useState<ReadonlyMap<string, readonly Branch[]>>(new Map());
  const [problem, setProblem] = useState("");
  const [said, setSaid] = useState("");
  const where = `${cell.place.sheet} ${cell.address}`;
  // Another cell has another tree; after a calculation what was read is old.
  useEffect(() => {
    setOpen(new Set());
  }, [where]);
  useEffect(() => {
    setBehind(new Map());
    setProblem("");
    setSaid("");
  }, [cell]);

  const read = async (branch: Branch): Promise<void> => {
    try {
      const children = await tracerOf(host).behind(branch, cell.place.sheet);
      setBehind((all) => new Map([...all, [branch.key, children]]));
      setSaid(
        `${children.length} ${children.length === 1 ? "value" : "values"} behind ${branch.label?.description || branch.address}`,
      );
    } catch (error) {
      setProblem(`${branch.address} could not be read: ${whyNot(error)}.`);
    }
  };
  const lines = linesOf(root, open, behind);
  // What is open but was read before a calculation is read again.
  useEffect(() => {
    for (const { path, branch, repeated } of lines)
      if (!repeated && open.has(pathText(path)) && branch.opens && !behind.has(branch.key)) void read(branch);
  }, [open, behind]);
  const turn = (line: TreeLine): void => {
    const path = pathText(line.path);
    setOpen((all) => {
      const next = new Set(all);
      if (!next.delete(path)) next.add(path);
      return next;
    });
  };

  const level = (lineAt: number): { readonly element: preact.JSX.Element; readonly next: number } => {
    const line = lines[lineAt]!;
    const children: preact.JSX.Element[] = [];
    let next = lineAt + 1;
    while (next < lines.length && lines[next]!.path.length > line.path.length) {
      const child = level(next);
      children.push(child.element);
      next = child.next;
    }
    return {
      element: (
        <li key={pathText(line.path)}>
          <Line line={line} go={go} turn={() => turn(line)} wanted={open.has(pathText(line.path))} />
          {children.length > 0 && <ul>{children}</ul>}
        </li>
      ),
      next,
    };
  };
  return (
    <div class="kb-tree">
      {problem && (
        <p class="kb-problem" role="alert">
          {problem}
        </p>
      )}
      <p class="kb-hidden" role="status">
        {said}
      </p>
      <ul>{level(0).element}</ul>
    </div>
  );
}

function Line({
  line: { branch, repeated, open, path },
  go,
  turn,
  wanted,
}: {
  readonly line: TreeLine;
  readonly go: (to: Place) => void;
  readonly turn: () => void;
  readonly wanted: boolean;
}) {
  const name = branch.label?.description || branch.address;
  return (
    <div class="kb-branch">
      {branch.opens && !repeated ? (
        <button
          type="button"
          class="kb-turn"
          aria-expanded={open}
          aria-label={`What is behind ${name}${path.length > 1 ? "" : ", the value itself"}`}
          onClick={turn}
        >
          <span aria-hidden="true">{wanted ? "▾" : "▸"}</span>
        </button>
      ) : (
        <span class="kb-turn" aria-hidden="true">
          ·
        </span>
      )}
      <span class="kb-branchname">
        <LabelWords label={branch.label} symbol />
      </span>
      <span class="kb-branchvalue">
        <b>{branch.text}</b>
        {branch.unit && ` ${branch.unit}`}
      </span>
      <span class="kb-from">
        {branch.place ? (
          <PlaceLink place={branch.place} address={branch.address} label={branch.label} go={go} />
        ) : (
          <code>{branch.address}</code>
        )}{" "}
        {repeated ? "as further up" : branch.source}
      </span>
    </div>
  );
}
