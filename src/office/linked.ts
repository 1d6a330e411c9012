import type { Snapshot } from "../cells/index.ts";
import type { FileSheet } from "../hosts/index.ts";
import { freeSheetName, inputsFrom, withoutLocked, type Inputs, type Plan, type Template } from "../sheet/index.ts";
import { expanded, settledFor, shapeText, startFor, withoutPlace } from "./planFor.ts";
import { Refused } from "./refused.ts";
import { asksFor, settingsOf, type Settings } from "./settings.ts";

/** Those of the linked templates that a call names, by id or by what stands before the source's id. */
export function linkedFor(
  source: Template,
  names: readonly string[],
  linkedTemplates: readonly Template[],
): readonly Template[] {
  const all = linkedTemplates.filter((template) => template.source!.template.id === source.id);
  const shortOf = ({ id }: Template): string => id.replace(`-${source.id}`, "").replace(`${source.id}-`, "");
  return [...new Set(names)].map((name) => {
    const found = all.find((template) => template.id === name || shortOf(template) === name);
    if (found) return found;
    throw new Refused([
      `--link ${name}: ${source.id} has no such linked sheet; there are: ${all.map(shortOf).join(", ")}`,
    ]);
  });
}

/** Settings of the source, and those that only a linked sheet asks for. */
export function dividedSettings(
  source: Template,
  linked: readonly Template[],
  set: readonly string[],
): { readonly ofSource: readonly string[]; readonly ofLinked: readonly string[] } {
  const isLinked = (text: string): boolean =>
    !asksFor(source, text) && linked.some((template) => asksFor(template, text));
  return { ofSource: set.filter((text) => !isLinked(text)), ofLinked: set.filter(isLinked) };
}

/** Those of the settings that a linked template asks for. */
export function linkedSettings(template: Template, set: readonly string[]): Settings {
  return settingsOf(
    template,
    set.filter((text) => asksFor(template, text)),
  );
}

/** A sheet that others of its file take values from. */
interface Source {
  readonly plan: Plan;
  readonly sheetName: string;
}

function besides(template: Template, { plan, sheetName }: Source, inputs: Inputs): Plan {
  const from = inputsFrom(template, plan.inputs, { ...inputs, sourceSheet: sheetName });
  return expanded(template, from, { sheet: sheetName, names: plan.names });
}

/**
 * The plan of a linked sheet beside its source in the same file, with settings of its own on top of what it starts from.
 * What is given in `common` to several sheets is left out where this one has no place for it. Throws Refused where
 * another setting has none, here or on the sheets of `others`, which the same call builds.
 */
export function linkedPlanFor(
  template: Template,
  source: Source,
  start: Inputs,
  settings: Settings,
  common: Settings = new Map(),
  others: readonly Template[] = [],
): Plan {
  const empty = besides(template, source, {});
  const faults = withoutPlace(settings, empty)
    .filter((id) => !others.some((other) => id in besides(other, source, {}).inputs))
    .map(
      (id) =>
        `input ${id} has no place on the linked sheet “${template.title}” of this shape: ` +
        shapeText(template.source!.template, source.plan),
    );
  if (faults.length > 0) throw new Refused(faults);
  const own = settledFor(template, new Map([...common, ...settings]), empty);
  return besides(template, source, { ...startFor(withoutLocked(template, start), empty), ...own });
}

/** The name of a linked sheet: its title, shortened as far as need be. */
export function linkedName(template: Template, taken: readonly string[]): string {
  return freeSheetName(template.title, taken);
}

/** A sheet of the file as what is computed beside it sees it. */
export function snapshotOf({ plan, values, sheetName }: FileSheet): Snapshot {
  return { sheet: sheetName, rows: plan.rows, columns: plan.columns, cells: values, names: new Map() };
}
