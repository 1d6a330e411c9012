import { a1, type Address, cellAt, cellsOf } from "../../cells/index.ts";
import { format as numberText, version } from "../../core/index.ts";
import { unconfirmedIn } from "../marks/unconfirmed.ts";
import { standing } from "../recognise/standing.ts";
import type { Effect, Governing } from "./asTemplate.ts";
import type { Comparison } from "./compare.ts";
import type { Finding } from "./finding.ts";

/** "D40", "D40:D52", or nothing for the sheet as a whole. */
export function whereOf({ at, rows = 1 }: Finding): string {
  if (!at) return "";
  const last: Address = { row: at.row + rows - 1, column: at.column };
  return rows === 1 ? a1(at) : `${a1(at)}:${a1(last)}`;
}

/** What it is about, with the member of the table. */
export function aboutOf({ label = "", member, rows = 1 }: Finding): string {
  return member ? `${label}${label && ", "}${rows > 1 ? "from " : ""}${member}` : label;
}

const several = (count: number, one: string, many = `${one}s`): string => `${count} ${count === 1 ? one : many}`;

/** The outcome in one sentence. */
export function outcomeOf({ clean, counts, findings }: Comparison): string {
  if (!clean)
    return (
      `${several(counts.serious, "serious finding")}, ${several(counts.look, "to look at", "to look at")}, ` +
      `${several(counts.note, "note")}.`
    );
  return findings.length === 0
    ? "No difference: the sheet is what its template builds from its inputs."
    : `No difference in what is computed; ${several(counts.note, "note")}.`;
}

/** The sheet's own overall verdict, which a comparison does not judge. */
function overallNow(recognised: Comparison["recognised"]): string {
  const at = standing(recognised, recognised.plan.summary.overall);
  const cell = at && cellAt(recognised.snapshot, at.row, at.column);
  if (cell === undefined) return "its row is missing";
  const unconfirmed = unconfirmedIn(recognised);
  const assumptions = unconfirmed === 1 ? "assumption" : "assumptions";
  const open = unconfirmed === 0 ? "" : `; ${unconfirmed} ${assumptions} not confirmed`;
  return `${cell.error?.code ?? (cell.text || "empty")}${open}`;
}

/** Which lines of the sheet's own list of warnings say something; one that does not apply holds a blank. */
function warningsNow(recognised: Comparison["recognised"]): string {
  const places = cellsOf(recognised.plan.summary.warnings).flatMap((planned) => {
    const at = standing(recognised, planned);
    const cell = at && cellAt(recognised.snapshot, at.row, at.column);
    return cell && !cell.error && cell.text.trim() !== "" ? [a1(at)] : [];
  });
  return places.length === 0
    ? "none"
    : `${places.length}, in ${places.slice(0, 6).join(", ")}${places.length > 6 ? " and below" : ""}`;
}

const utilisation = (governing: Governing | undefined): string =>
  governing ? `${numberText(Number(governing.utilisation.toPrecision(4)))} (${governing.of})` : "none";

/** What differing formulas come to as a whole. */
function comesTo({ overall, governing }: Effect): string {
  const same =
    overall.sheet === overall.template
      ? `${overall.template}, as the sheet says`
      : `${overall.template}; the sheet says ${overall.sheet}`;
  return `verdict ${same}; largest utilisation ${utilisation(governing.template)}, on the sheet ${utilisation(governing.sheet)}`;
}

/** What the sheet was compared with. */
export function comparedWith({ recognised, compared, effect }: Comparison): readonly (readonly [string, string])[] {
  const { plan, head } = recognised;
  return [
    ["template", `${plan.template.title} (${plan.template.id} ${plan.template.version})`],
    [
      "built with",
      `${head.templateId} ${head.templateVersion}, worksheet functions ${head.functionsVersion || "not said"}`,
    ],
    ["computed with", `worksheet functions ${version}`],
    [
      "content hash",
      head.hash === plan.hash
        ? `${plan.hash}, as the sheet says`
        : `${plan.hash}; the sheet says ${head.hash || "nothing"}`,
    ],
    ["verdict of the sheet", overallNow(recognised)],
    ["warnings of the sheet", warningsNow(recognised)],
    ...(effect ? [["with the template's formulas", comesTo(effect)] as const] : []),
    [
      "compared",
      `${compared.cells} cells, ${compared.formulas} of them formulas; ${compared.computed} formulas ` +
        "computed a second time, apart from the program",
    ],
  ];
}

/** What a comparison does not show. */
export const limits =
  "A comparison shows where cells, formulas, number formats, colours, hidden rows, protection and what " +
  "may be typed differ from the template; joined cells, charts and pictures are for the eye. It does " +
  "not show that the inputs are right for the structure, nor that the template's method fits it: that " +
  "is the checker's judgement, and the standard in force and licensed local practice decide.";
