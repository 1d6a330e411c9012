import type { Failing, Trial } from "./trial.ts";

/** What a search for tendons has found, and what smaller proposals would fail. */
export interface Sized {
  /** The sheet of what is proposed. */
  readonly trial: Trial;
  /** The same with a little less steel; absent where less means another layout. */
  readonly fewer?: { readonly change: string; readonly failing: readonly Failing[] };
  /** What would do if nothing had to hold between the stressing of one tendon and the next; absent where that is no less. */
  readonly unlessStressed?: string;
}

/** The inputs that decide a check most, of those nobody was asked for. */
function behind({ id, where }: Failing): readonly string[] {
  if (id === "uStepC" || id === "uStepT") return ["selfSure", "stressedOn"];
  if (where.startsWith("Transfer")) return ["fckt", "fci"];
  if (where.startsWith("Frequent")) return ["psi1"];
  if (where.startsWith("Quasi-p")) return ["psi2"];
  return [];
}

/** "κ_g = 0 (self-weight sure to act on formwork, share; row 1.31)" */
function inputWords(trial: Trial, id: string): string | undefined {
  const meaning = trial.meaning(id);
  if (!meaning) return undefined;
  const { symbol, unit, description, item } = meaning;
  const value = [String(trial.value(id)), ...(unit === "–" ? [] : [unit])].join(" ");
  return `${symbol === "–" ? value : `${symbol} = ${value}`} (${description}; row ${item})`;
}

/** Which check and which assumption behind it sized the tendons, in words: what would pass with less steel otherwise. */
export function sizedBy({ trial, fewer, unlessStressed }: Sized): string {
  const assumptions = (of: readonly Failing[]): string => {
    const ids = [...new Set(of.flatMap(behind))];
    const words = ids.flatMap((id) => inputWords(trial, id) ?? []);
    return words.length === 0 ? "" : `, with ${words.join(" and ")}, which you can change there`;
  };
  const said: string[] = [];
  if (unlessStressed !== undefined) {
    const share = inputWords(trial, "selfSure");
    const sizes =
      trial.value("tendons") === 1
        ? "What has to hold while the tendon is stressed sizes it"
        : "What has to hold while the tendons are stressed one after the other sizes them";
    said.push(
      `${sizes}${share ? `: ${share}` : ""}. ` +
        `By the loads alone, ${unlessStressed} would do; where the weight surely acts, enter its share`,
    );
  }
  if (fewer && fewer.failing.length > 0)
    said.push(
      `With ${fewer.change} it fails: ` +
        `${fewer.failing.map(({ description, where }) => `${description} (${where})`).join("; ")}` +
        assumptions(fewer.failing),
    );
  if (said.length > 0) return `${said.join(". ")}.`;
  const [closest] = trial.stressChecks;
  if (!closest) return "";
  return `Closest to its limit: ${closest.description} (${closest.where})${assumptions([closest])}.`;
}
