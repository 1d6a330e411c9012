import { type Address, cellsOf } from "../../cells/index.ts";
import { format as numberText } from "../../core/index.ts";
import type { EntryRule } from "../../hosts/index.ts";
import type { Validation } from "../../sheet/index.ts";
import type { Recognised } from "../recognise/recognised.ts";
import { standing } from "../recognise/standing.ts";
import { labels } from "./cells.ts";
import type { Finding } from "./finding.ts";

type Rule = Validation["rule"];
type Bound = "min" | "max" | "above" | "below";

const bounds: Readonly<Record<Bound, string>> = { above: "above", min: "at least", below: "below", max: "at most" };
const boundNames = Object.keys(bounds) as readonly Bound[];

/** Every cell of the plan that takes only some entries, where it stands now. */
function entryCells(
  recognised: Recognised,
): readonly { readonly planned: Address; readonly at: Address; readonly rule: Rule }[] {
  return recognised.plan.validations.flatMap((validation) =>
    cellsOf(validation).flatMap((planned) => {
      const at = standing(recognised, planned);
      return at ? [{ planned, at, rule: validation.rule }] : [];
    }),
  );
}

/** The places whose rule of entry a comparison asks the host about. */
export const placesOfEntry = (recognised: Recognised): readonly Address[] => entryCells(recognised).map(({ at }) => at);

/** "whole number, at least 1, at most 12": each bound by itself, so that one that was changed is seen. */
function ruleText(rule: Rule | "other"): string {
  if (rule === "other") return "a rule of another kind";
  if (rule.kind === "list") return `one of ${rule.values.join(", ")}`;
  const limits = boundNames.flatMap((bound) =>
    rule[bound] === undefined ? [] : [`${bounds[bound]} ${numberText(rule[bound])}`],
  );
  return [rule.whole ? "whole number" : "number", ...limits].join(", ");
}

/** Programs keep some fifteen digits of a bound. */
const sameNumber = (a: number | undefined, b: number | undefined): boolean =>
  a === b || (a !== undefined && b !== undefined && Math.abs(a - b) <= 1e-14 * Math.abs(a));

function sameRule(planned: Rule, now: Rule | "other"): boolean {
  if (now === "other" || planned.kind !== now.kind) return false;
  if (planned.kind === "list") return now.kind === "list" && planned.values.join("\n") === now.values.join("\n");
  return (
    now.kind === "number" &&
    planned.whole === now.whole &&
    boundNames.every((bound) => sameNumber(planned[bound], now[bound]))
  );
}

/** Inputs that take other entries than the template lets them take; `entries` in the order of `placesOfEntry`. */
export function entryFindings(recognised: Recognised, entries: readonly (EntryRule | undefined)[]): readonly Finding[] {
  const cells = entryCells(recognised);
  if (cells.length > 0 && entries.every((entry) => entry === undefined))
    return [
      {
        kind: "entry rule missing",
        grade: "look",
        what:
          "No input has its rule of entry any more: what is not allowed can be typed, and drop-down lists are " +
          "gone. This comparison holds the inputs against their ranges all the same.",
      },
    ];
  const labelOf = labels(recognised);
  return cells.flatMap(({ planned, at, rule }, i): readonly Finding[] => {
    const now = entries[i];
    const finding = (kind: "entry rule missing" | "entry rule changed", what: string, found: string): Finding => ({
      kind,
      grade: "look",
      at,
      label: labelOf(planned),
      what,
      expected: ruleText(rule),
      found,
    });
    if (!now) return [finding("entry rule missing", "The input takes whatever is typed.", "no rule")];
    if (!sameRule(rule, now.rule))
      return [
        finding(
          "entry rule changed",
          "The input takes other entries than the template lets it take.",
          ruleText(now.rule),
        ),
      ];
    return now.refuses
      ? []
      : [
          finding(
            "entry rule changed",
            "An entry that is not allowed is no longer refused.",
            `${ruleText(now.rule)}; others with a remark only`,
          ),
        ];
  });
}
