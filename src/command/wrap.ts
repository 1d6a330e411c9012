/** As wide as a terminal shows without breaking lines itself. */
export const screenWidth = 100;

/** A text in lines no wider than this, broken between words; a longer word stays whole. */
export function broken(text: string, width: number): readonly string[] {
  const lines: string[] = [];
  let line = "";
  for (const word of text.split(" ")) {
    const longer = line === "" ? word : `${line} ${word}`;
    if (longer.length <= width || line === "") line = longer;
    else {
      lines.push(line);
      line = word;
    }
  }
  return [...lines, line];
}

/** A line of output on as many lines as it needs, those after the first set in. */
export function wrapped(line: string, width = screenWidth): readonly string[] {
  if (line.length <= width) return [line];
  const before = /^ */.exec(line)![0].length;
  const inset = " ".repeat(before + 2);
  const [first = "", ...rest] = broken(line.slice(before), width - before - 2);
  return [" ".repeat(before) + first, ...rest.map((one) => inset + one)];
}

const gap = 2;
const mostOfLast = 30;

/** Lines of columns set in by two; where they are too wide together, the texts of the first and the last are broken. */
export function inColumns(rows: readonly (readonly string[])[], width = screenWidth): readonly string[] {
  const natural = rows[0]!.map((_, i) => Math.max(...rows.map((row) => row[i]!.length)));
  const last = natural.length - 1;
  const room = width - gap * natural.length;
  const total = natural.reduce((sum, n) => sum + n, 0);
  const widths = natural.map((n, i) => (i === last && total > room ? Math.min(n, mostOfLast) : n));
  const others = widths.slice(1).reduce((sum, n) => sum + n, 0);
  widths[0] = Math.min(natural[0]!, room - others);
  return rows.flatMap((row) => {
    const cells = row.map((text, i) => broken(text, widths[i]!));
    const lines = Math.max(...cells.map(({ length }) => length));
    return Array.from({ length: lines }, (_, l) =>
      `${" ".repeat(gap)}${cells.map((cell, i) => (cell[l] ?? "").padEnd(widths[i]!)).join(" ".repeat(gap))}`.trimEnd(),
    );
  });
}
