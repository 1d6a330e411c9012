/** What a check says, wherever it is read from. */
export interface SaidCheck {
  readonly verdict: string;
  /** A number, or words where there is none. */
  readonly utilisation: unknown;
  readonly aside?: true;
}

function groupOf({ verdict }: SaidCheck): number {
  if (verdict === "OK") return 2;
  return verdict === "FAIL" || verdict.startsWith("#") ? 0 : 1;
}

/**
 * Checks as they are read, on the sheet and beside it: those that fail or show an error, those that are open, those that
 * pass; within each the higher utilisation first. What only gathers the others is left out where it passes.
 */
export function asRead<T>(checks: readonly T[], say: (check: T) => SaidCheck): readonly T[] {
  const all = checks
    .map((check) => ({ check, said: say(check) }))
    .filter(({ said }) => !said.aside || said.verdict !== "OK");
  const ratio = ({ utilisation }: SaidCheck, passes: boolean): number => {
    if (typeof utilisation !== "number") return 0;
    // What passes for another reason than its ratio does not govern.
    return passes && utilisation > 1 ? 0 : utilisation;
  };
  return all
    .sort((a, b) => {
      const [first, second] = [groupOf(a.said), groupOf(b.said)];
      return first === second ? ratio(b.said, second === 2) - ratio(a.said, first === 2) : first - second;
    })
    .map(({ check }) => check);
}
