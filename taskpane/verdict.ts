import { columns, unconfirmedWords } from "../src/sheet/index.ts";
import type { Host } from "../src/hosts/index.ts";

/** The colour of a verdict: OK is green once nothing that it rests on is assumed any more. */
export function toneOf(verdict: string, unconfirmed: number): string {
  if (verdict === "FAIL") return "kb-tag-bad";
  return verdict === "OK" && unconfirmed === 0 ? "kb-tag-good" : "kb-tag-open";
}

/** How many values of these sheets are assumed or proposed, without initials in place of the word. */
export async function unconfirmedOn(host: Pick<Host, "used" | "read">, sheets: readonly string[]): Promise<number> {
  let count = 0;
  for (const sheet of sheets) {
    const { row, rows } = await host.used(sheet);
    const marks = await host.read(sheet, { row: 0, column: columns.mark, rows: row + rows, columns: 1 });
    count += marks.filter(([cell]) => unconfirmedWords.includes(cell?.text ?? "")).length;
  }
  return count;
}
