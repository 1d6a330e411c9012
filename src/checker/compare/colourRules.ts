import { type Address, type Area, cellAt, cellsOf, holds } from "../../cells/index.ts";
import { likeColours, tones, type ColourRule } from "../../hosts/index.ts";
import type { Highlight } from "../../sheet/index.ts";
import type { Recognised } from "../recognise/recognised.ts";
import { plannedAt, standing } from "../recognise/standing.ts";
import { labels } from "./cells.ts";
import type { Finding } from "./finding.ts";
import { hidesNumbers, hidesTexts } from "./numberFormat.ts";

const paper = "#FFFFFF";

/** The rule that a planned highlight becomes on a sheet; of no cells. */
function asRule({ text, begins, tone }: Highlight): ColourRule & { readonly text: string } {
  const { color, background } = tones[tone];
  return {
    areas: [],
    text,
    ...(begins && { begins }),
    color: color.toUpperCase(),
    background: background.toUpperCase(),
  };
}

const sameCondition = (a: ColourRule, b: ColourRule): boolean => a.text === b.text && a.begins === b.begins;

/** What a colour rule does to what it colours. */
function effectOf({ color, background = paper, format }: ColourRule): "hides" | "changes" | undefined {
  if (color !== undefined && likeColours(color, background)) return "hides";
  if (format !== undefined && format !== "" && (hidesNumbers(format) || hidesTexts(format))) return "changes";
  return undefined;
}

const ruleText = ({ text, begins, color, background, format }: ColourRule): string =>
  [
    text === undefined
      ? "on a condition of another kind"
      : begins
        ? `where it begins with ${text}`
        : `where it is ${text}`,
    color !== undefined && `letters ${color}`,
    background !== undefined && `ground ${background}`,
    format !== undefined && `format ${format}`,
  ]
    .filter(Boolean)
    .join(", ");

/** Verdicts and marks that do not take their colour: neighbours below each other together. */
function goneColours(recognised: Recognised, colours: readonly ColourRule[]): readonly Finding[] {
  const { plan } = recognised;
  if (plan.highlights.length > 0 && colours.length === 0)
    return [
      { kind: "colour missing", grade: "look", what: "No verdict takes its colour any more: a FAIL looks like an OK." },
    ];
  const labelOf = labels(recognised);
  const keyOf = ({ row, column }: Address): number => row * plan.columns + column;
  const filled = new Set(plan.cells.map(keyOf));
  return plan.highlights.flatMap((highlight) => {
    const planned = asRule(highlight);
    const wording = planned.begins ? `What begins with ${planned.text}` : planned.text;
    const expected = ruleText(planned);
    const out: Finding[] = [];
    const ofCondition = colours.filter((rule) => sameCondition(rule, planned));
    const asPlanned = ofCondition.filter(
      ({ color, background }) => color === planned.color && background === planned.background,
    );
    for (const cell of cellsOf(highlight)) {
      if (!filled.has(keyOf(cell))) continue;
      const at = standing(recognised, cell);
      if (!at) continue;
      const coloursIt = ({ areas }: ColourRule): boolean => areas.some((area) => holds(area, at));
      if (asPlanned.some(coloursIt)) continue;
      const other = ofCondition.find(coloursIt);
      const kind = other ? "colour changed" : "colour missing";
      const last = out.at(-1);
      if (last?.kind === kind && last.at!.column === at.column)
        out[out.length - 1] = { ...last, rows: at.row - last.at!.row + 1 };
      else
        out.push({
          kind,
          grade: "look",
          at,
          label: labelOf(cell),
          expected,
          ...(other
            ? { what: `${wording} takes other colours.`, found: ruleText(other) }
            : { what: `${wording} takes no colour.` }),
        });
    }
    return out;
  });
}

/** Colours the template does not give: they may hide what they colour. */
function ownColours(recognised: Recognised, colours: readonly ColourRule[]): readonly Finding[] {
  const { plan, snapshot } = recognised;
  const planned = plan.highlights.map(asRule);
  const labelOf = labels(recognised);
  return colours.flatMap((rule): readonly Finding[] => {
    const effect = effectOf(rule);
    if (effect === undefined && planned.some((one) => sameCondition(one, rule))) return [];
    return rule.areas.flatMap((area): readonly Finding[] => {
      const cells = cellsOf(trimmed(area, snapshot)).filter(
        (at) => plannedAt(recognised, at) && cellAt(snapshot, at.row, at.column).text !== "",
      );
      const [first] = cells;
      if (!first) return [];
      const label = labelOf(plannedAt(recognised, first)!);
      const finding = {
        at: first,
        rows: cells.at(-1)!.row - first.row + 1,
        ...(label && { label }),
        found: ruleText(rule),
      };
      if (effect === "hides")
        return [
          {
            ...finding,
            kind: "value hidden by colour",
            grade: "serious",
            what: "A colour rule gives the letters the colour of their ground.",
          },
        ];
      if (effect === "changes")
        return [
          {
            ...finding,
            kind: "value hidden by format",
            grade: "serious",
            what: "A colour rule brings a number format that does not show what stands there.",
          },
        ];
      return [
        {
          ...finding,
          kind: "colour added",
          grade: "note",
          what: "Cells take a colour by a rule that the template does not have.",
        },
      ];
    });
  });
}

/** The part of an area within the used sheet: rules may reach to its last row. */
function trimmed(
  { row, column, rows, columns }: Area,
  { rows: most, columns: widest }: { readonly rows: number; readonly columns: number },
): Area {
  return {
    row,
    column,
    rows: Math.max(0, Math.min(rows, most - row)),
    columns: Math.max(0, Math.min(columns, widest - column)),
  };
}

/** In what the colours that cells take by their content are not those of the template. */
export function colourFindings(recognised: Recognised, colours: readonly ColourRule[]): readonly Finding[] {
  return [...goneColours(recognised, colours), ...ownColours(recognised, colours)];
}
