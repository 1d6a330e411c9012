import { useEffect, useRef, useState } from "preact/hooks";
import type { Host } from "../../src/hosts/index.ts";
import type { PlannedChart } from "../../src/sheet/index.ts";
import { numberText } from "../../src/typeset/index.ts";
import { whyNot } from "../loading.ts";
import { goesBack, readLines, type Line } from "./chartData.ts";
import { axisText as axis, dashes, drawn, pointSymbols, symbols } from "./drawn.ts";

const rounded = (value: number): string => numberText(Number(value.toPrecision(5)));

/** A picture of values along the span, with the same numbers as a table. */
export function Chart({
  host,
  sheet,
  chart,
  calculation,
}: {
  readonly host: Host;
  readonly sheet: string;
  readonly chart: PlannedChart;
  readonly calculation: number;
}) {
  const place = useRef<HTMLDivElement>(null);
  const figure = useRef<HTMLElement>(null);
  const [lines, setLines] = useState<readonly Line[]>([]);
  const [width, setWidth] = useState(288);
  const [shown, setShown] = useState(true);
  const [problem, setProblem] = useState("");

  useEffect(() => {
    let live = true;
    readLines(host, sheet, chart).then(
      (l) => {
        if (live) {
          setLines(l);
          setProblem("");
        }
      },
      (error: unknown) => {
        if (live) setProblem(`The values could not be read: ${whyNot(error)}.`);
      },
    );
    return () => {
      live = false;
    };
  }, [host, sheet, chart, calculation]);

  useEffect(() => {
    if (!figure.current) return;
    const watch = new ResizeObserver(([entry]) => {
      const room = Math.floor(entry!.contentRect.width);
      // A view that is not shown has no width.
      setShown(room > 0);
      if (room > 0) setWidth(Math.max(240, Math.min(640, room)));
    });
    watch.observe(figure.current);
    return () => watch.disconnect();
  }, []);

  const values = lines.filter((l) => l.kind === "value");
  const limits = lines.filter((l) => l.kind === "limit");
  const points = lines.filter((l) => l.kind === "point");

  useEffect(() => {
    if (!shown || lines.every((l) => l.points.length === 0)) return;
    let live = true;
    void import("@observablehq/plot").then(
      (Plot) => {
        if (!live || !place.current) return;
        const svg = drawn(Plot, chart, lines, width);
        svg.setAttribute("aria-hidden", "true");
        place.current.replaceChildren(svg);
      },
      (error: unknown) => {
        if (live) setProblem(`The chart could not be drawn: ${whyNot(error)}.`);
      },
    );
    return () => {
      live = false;
    };
  }, [lines, width, chart, shown]);

  const xs = [...new Set(lines.flatMap((l) => l.points.map((p) => p.x)))].sort((a, b) => a - b);
  return (
    <figure class="kb-chart" ref={figure}>
      <figcaption>{chart.title}</figcaption>
      {problem && <p class="kb-problem">{problem}</p>}
      {lines.length > 0 && xs.length === 0 ? (
        <p>There are no numbers to draw yet: the sheet still has empty inputs or errors.</p>
      ) : (
        <div ref={place} class="kb-plotplace" />
      )}
      <ul class="kb-legend">
        {values.map((l, i) => (
          <li key={l.name}>
            <svg width="34" height="12" aria-hidden="true" class={`kb-series kb-series-${i % 6}`}>
              <path d="M1 6H33" fill="none" stroke="currentColor" stroke-width="2" stroke-dasharray={dashes[i % 6]} />
              <Mark of={symbols[i % 6]!} />
            </svg>{" "}
            {l.name}
          </li>
        ))}
        {limits.length > 0 && (
          <li>
            <svg width="34" height="12" aria-hidden="true" class="kb-limit">
              <path d="M1 6H33" fill="none" stroke="currentColor" stroke-width="2.6" stroke-dasharray="1.5 3.5" />
            </svg>{" "}
            {[...new Set(limits.map((l) => l.name))].join(", ")}
          </li>
        )}
        {points.map((l, i) => (
          <li key={l.name}>
            <svg width="34" height="12" aria-hidden="true" class="kb-point">
              <g transform="translate(-8.5 -3) scale(1.5)">
                <Mark of={pointSymbols[i % pointSymbols.length]!} />
              </g>
            </svg>{" "}
            {l.name}
          </li>
        ))}
      </ul>
      <details>
        <summary>Numbers</summary>
        <div class="kb-scroll" tabIndex={0} role="group" aria-label={`Numbers of ${chart.title}`}>
          <table class="kb-table">
            <caption class="kb-hidden">
              {chart.title}, {axis(chart.y)} against {axis(chart.x)}
            </caption>
            {goesBack(lines) ? (
              <>
                <thead>
                  <tr>
                    <th scope="col" class="kb-name">
                      Line
                    </th>
                    <th scope="col">{axis(chart.x)}</th>
                    <th scope="col">{axis(chart.y)}</th>
                  </tr>
                </thead>
                <tbody>
                  {lines.flatMap((l) =>
                    l.points.map((p, i) => (
                      <tr key={`${l.name}/${i}`}>
                        <th scope="row" class="kb-name">
                          {l.name}
                        </th>
                        <td>{rounded(p.x)}</td>
                        <td>{rounded(p.y)}</td>
                      </tr>
                    )),
                  )}
                </tbody>
              </>
            ) : (
              <>
                <thead>
                  <tr>
                    <th scope="col">{axis(chart.x)}</th>
                    {lines.map((l) => (
                      <th key={l.name} scope="col">
                        {l.name}
                        {chart.y.unit !== "–" && ` (${chart.y.unit})`}
                      </th>
                    ))}
                  </tr>
                </thead>
                <tbody>
                  {xs.map((x) => (
                    <tr key={x}>
                      <th scope="row">{numberText(x)}</th>
                      {lines.map((l) => {
                        const at = l.points.filter((p) => p.x === x);
                        return <td key={l.name}>{at.length === 0 ? "–" : at.map((p) => rounded(p.y)).join("; ")}</td>;
                      })}
                    </tr>
                  ))}
                </tbody>
              </>
            )}
          </table>
        </div>
      </details>
    </figure>
  );
}

function Mark({ of }: { readonly of: (typeof symbols)[number] }) {
  const shapes: Readonly<Record<(typeof symbols)[number], string>> = {
    circle: "M14 6a3 3 0 1 0 6 0a3 3 0 1 0-6 0Z",
    square: "M14.3 3.3h5.4v5.4h-5.4Z",
    triangle: "M17 2.5l3.5 6h-7Z",
    diamond: "M17 2l2.4 4-2.4 4-2.4-4Z",
    plus: "M16 3h2v2h2v2h-2v2h-2v-2h-2v-2h2Z",
    star: "M17 2l1 3h3l-2.4 1.8.9 3L17 8l-2.5 1.8.9-3L13 5h3Z",
  };
  return <path d={shapes[of]} fill="currentColor" />;
}
