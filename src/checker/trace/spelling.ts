import { worksheetFunctions } from "../../../functions/index.ts";

/** How many letters must be put in, left out or changed to make one word of another. */
function distance(a: string, b: string): number {
  let row = Array.from({ length: b.length + 1 }, (_, j) => j);
  for (let i = 1; i <= a.length; i++) {
    const next = [i];
    for (let j = 1; j <= b.length; j++)
      next[j] = Math.min(next[j - 1]! + 1, row[j]! + 1, row[j - 1]! + (a[i - 1] === b[j - 1] ? 0 : 1));
    row = next;
  }
  return row[b.length]!;
}

/** The functions whose names are nearest to a name that is none, the nearest first; none where nothing is near. */
export function nearestFunctions(id: string, most = 3): readonly string[] {
  const wanted = id.toUpperCase();
  return worksheetFunctions
    .map((f) => ({
      id: f.id,
      far: f.id.startsWith(`${wanted}_`) || wanted.startsWith(`${f.id}_`) ? 1 : distance(wanted, f.id),
    }))
    .filter(({ id: other, far }) => far <= Math.max(2, Math.floor(Math.max(other.length, wanted.length) / 5)))
    .sort((a, b) => a.far - b.far || a.id.length - b.id.length)
    .slice(0, most)
    .map((f) => f.id);
}
