import { createHash } from "node:crypto";
import { existsSync, mkdirSync, readFileSync, writeFileSync } from "node:fs";
import { dirname, join } from "node:path";
import { root } from "../../src/command/build.ts";
import type { MutantInFile } from "./bundle.ts";

/** What came of a mutant. One that never ends is noticed too. */
export type Fate = "killed" | "never ends" | "survived" | "not met";

const usualPlace = join(root, ".cache", "mutation.json");
const isNoticed = (fate: Fate | undefined): boolean => fate === "killed" || fate === "never ends";

/** What came of each mutant, kept from run to run for as long as its file stays the same. */
export class Records {
  private readonly fates: Record<string, Fate>;
  private readonly hashes = new Map<string, string>();

  constructor(
    fresh: boolean,
    private readonly place = usualPlace,
  ) {
    this.fates = !fresh && existsSync(place) ? (JSON.parse(readFileSync(place, "utf8")) as Record<string, Fate>) : {};
  }

  private keyOf({ file, at, was, becomes }: MutantInFile): string {
    const hash =
      this.hashes.get(file) ??
      createHash("sha256")
        .update(readFileSync(join(root, file)))
        .digest("hex")
        .slice(0, 12);
    this.hashes.set(file, hash);
    return `${file} ${hash} ${at} ${was} > ${becomes}`;
  }

  isKilled(mutant: MutantInFile): boolean {
    return isNoticed(this.fates[this.keyOf(mutant)]);
  }

  note(mutant: MutantInFile, fate: Fate): void {
    this.fates[this.keyOf(mutant)] = fate;
  }

  save(): void {
    mkdirSync(dirname(this.place), { recursive: true });
    writeFileSync(this.place, JSON.stringify(this.fates, null, 1));
  }

  /**
   * Prints survivors and the share noticed by folder, of those tried by now; gives the whole share in per cent. What
   * survived an earlier run counts like what was killed in one: else a short run would seem better than it is.
   */
  report(all: readonly MutantInFile[]): number {
    const mutants = all.filter((m) => this.fates[this.keyOf(m)] !== undefined);
    const share = (list: readonly MutantInFile[]): number =>
      (100 * list.filter((m) => this.isKilled(m)).length) / Math.max(list.length, 1);
    const byFolder = new Map<string, MutantInFile[]>();
    for (const mutant of mutants)
      byFolder.set(dirname(mutant.file), [...(byFolder.get(dirname(mutant.file)) ?? []), mutant]);
    for (const mutant of mutants) {
      const fate = this.fates[this.keyOf(mutant)];
      if (!isNoticed(fate))
        console.log(
          `${mutant.file}:${mutant.line}  ${mutant.was.replace(/\s+/g, " ").slice(0, 80)} → ` +
            `${mutant.becomes}${fate === "not met" ? "  (no test gets here)" : ""}`,
        );
    }
    for (const [folder, list] of byFolder)
      console.log(
        `${folder.padEnd(40)} ${String(list.length).padStart(5)} mutants  ${share(list).toFixed(1).padStart(5)} % noticed`,
      );
    const left = all.length === mutants.length ? "" : ` (${all.length - mutants.length} more were not tried)`;
    console.log(`${mutants.length} mutants, ${share(mutants).toFixed(1)} % noticed${left}`);
    return share(mutants);
  }
}
