import { namespace, worksheetFunctions } from "../../../functions/index.ts";

/** How many letters must be put in, left out, changed or exchanged with their neighbour to make one word of the other. */
function distance(a: string, b: string): number {
  const rows: number[][] = [Array.from({ length: b.length + 1 }, (_, j) => j)];
  for (let i = 1; i <= a.length; i++) {
    const row = [i];
    for (let j = 1; j <= b.length; j++) {
      const changed = rows[i - 1]![j - 1]! + (a[i - 1] === b[j - 1] ? 0 : 1);
      row.push(Math.min(changed, rows[i - 1]![j]! + 1, row[j - 1]! + 1));
      const exchanged = i > 1 && j > 1 && a[i - 1] === b[j - 2] && a[i - 2] === b[j - 1];
      if (exchanged) row[j] = Math.min(row[j]!, rows[i - 2]![j - 2]! + 1);
    }
    rows.push(row);
  }
  return rows[a.length]![b.length]!;
}

const most = 3;

/** The functions whose ids are nearest to a misspelt one: those that begin like it before those that merely have similar letters. */
export function nearestFunctions(id: string): readonly string[] {
  const wanted = id.toUpperCase();
  const allowed = Math.max(2, Math.ceil(wanted.length / 3));
  const found = worksheetFunctions
    .map((f) => ({
      name: f.name,
      apart: f.id.startsWith(`${wanted}_`) ? 1 : distance(wanted, f.id),
    }))
    .filter(({ apart }) => apart <= allowed);
  return found
    .sort((a, b) => a.apart - b.apart || a.name.length - b.name.length)
    .slice(0, most)
    .map(({ name }) => name);
}

/** What to say of a call of ours that no function answers to; undefined where one does. */
export function unknownFunction(id: string): string | undefined {
  if (worksheetFunctions.some((f) => f.id === id.toUpperCase())) return undefined;
  const nearest = nearestFunctions(id);
  const name = `${namespace}.${id.toUpperCase()}`;
  return nearest.length === 0
    ? `there is no function ${name}; npm run -s functions lists all`
    : `there is no function ${name}; nearest: ${nearest.join(", ")}`;
}
