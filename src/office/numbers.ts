import { rootId, says, type Entered, type Neighbour, type Plan, type Template } from "../sheet/index.ts";
import type { OfficeValue } from "./defaults.ts";

/** A number of a standard's edition, or of its national annex, that an office enters from its own copy. */
export interface StandardNumber extends OfficeValue {
  readonly clause: string;
  readonly enteredBy: string;
  readonly enteredOn: string;
}

/** The numbers of one edition. */
export interface StandardNumbers {
  /** How the ids of its templates end: "is1343-2012". */
  readonly standard: string;
  readonly values: readonly StandardNumber[];
}

/** Whether a template, or the shipped one that it was made from, is to this standard. */
export const isTo = (template: Template, standard: string): boolean => rootId(template).endsWith(`-${standard}`);

/** The standards that these templates are to. */
export function standardsOf(templates: readonly Template[]): readonly string[] {
  return [...new Set(templates.flatMap((one) => /-([a-z]+\d+-\d{4})$/.exec(rootId(one))?.[1] ?? []))].sort();
}

function neighbourOf(template: Template, id: string): { readonly near: Neighbour; readonly unit: string } | undefined {
  for (const item of template.blocks.flatMap(({ items }) => items))
    if ("id" in item && item.id === id && item.input?.near) return { near: item.input.near, unit: says(item).unit };
  return undefined;
}

const inUnit = (unit: string): string => (/^[-–]$/.test(unit) ? "" : ` ${unit}`);

/** " (IS 1343:1980 has 2.2)": what stands in its place elsewhere; empty where that is not known. */
export function besideText(templates: readonly Template[], id: string): string {
  const found = templates.flatMap((one) => neighbourOf(one, id) ?? [])[0];
  return found ? ` (${found.near.of} has ${found.near.value}${inUnit(found.unit)})` : "";
}

/** What is to be said of a number that is far from its neighbour; undefined where it is not. */
export function doubtOf(templates: readonly Template[], { id, value }: OfficeValue): string | undefined {
  for (const template of templates) {
    const found = neighbourOf(template, id);
    if (!found || typeof value !== "number") continue;
    const { near, unit } = found;
    const { from, to, of } = near;
    if (value >= from && value <= to) return undefined;
    const own = inUnit(unit);
    return (
      `${id} = ${value}${own} is far from ${near.value}${own}, the number of ${of}; expected: ${from} to ${to}${own}. ` +
      "Compare it with your copy: a slip, another unit, or another rule"
    );
  }
  return undefined;
}

/** Columns of the table in which a sheet says where its numbers come from, and what each says of an office's number. */
const told: Readonly<Record<string, (one: StandardNumber) => string>> = {
  nfBy: ({ value, enteredBy }) => `office: ${value}, ${enteredBy}`,
  nfOn: ({ enteredOn }) => enteredOn,
  nfClause: ({ clause }) => clause,
};
/** The dimension of that table: its members are ids of inputs. */
const numberDimension = "officeNumber";

const isListed = ({ dimensions }: Template): boolean => numberDimension in dimensions;

/** "k7p = 0.7: NA to 5.10.2.1, AB, 2026-10-01": for a template whose sheet has no such table; none for one that has. */
export function originTexts(
  template: Template,
  used: readonly (OfficeValue & { readonly clause?: string })[],
): readonly string[] {
  if (isListed(template)) return [];
  return used.flatMap(({ id, value, unit, clause, source, enteredBy, enteredOn }) => {
    const origin = [clause ?? source, enteredBy, enteredOn].filter((text) => text !== undefined);
    return origin.length === 0 ? [] : [`${id} = ${value}${inUnit(unit)}: ${origin.join(", ")}`];
  });
}

/** The cells of that table for the numbers in use: who entered them, when, and the clause. */
export function originsOf(plan: Plan, template: Template, used: readonly StandardNumber[]): readonly Entered[] {
  const dimension = template.dimensions[numberDimension];
  if (!dimension || !("members" in dimension)) return [];
  return plan.meanings.flatMap(({ id, at }) => {
    const text = Object.hasOwn(told, id) ? told[id] : undefined;
    if (!text) return [];
    return dimension.members.flatMap((member, i): readonly Entered[] => {
      const one = used.find((number) => number.id === member.id);
      return one ? [{ row: at.row + i, column: at.column, value: text(one) }] : [];
    });
  });
}
