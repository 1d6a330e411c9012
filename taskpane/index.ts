import { h, render } from "preact";
import type { Host } from "../src/hosts/index.ts";
import { catalogue, loadTemplate, type TemplateEntry } from "../src/templates/catalogue.ts";
import { loadKnownTemplate, officeEntry, officeLinked, officeTemplates } from "../src/templates/offices.ts";
import type { Engine } from "./engine.ts";
import { Panel } from "./panel.tsx";
import { onOfficeTemplates, startOfficeTemplates } from "./templates/loaded.ts";
import "./panel.css";

export { builtOn, forgetBuilt, rememberBuilt } from "./built.ts";
export { officeState, onOfficeTemplates } from "./templates/loaded.ts";

/** The calculation behind these loads when a sheet is first built. */
const checker = () => import("../src/checker/index.ts");

/** The lists of templates as they are now: what is shipped, then what is loaded of offices. */
function lists(): Pick<Engine, "templates" | "choosingTemplates" | "linkedTemplates"> {
  const own = officeTemplates().filter(({ source }) => !source);
  const all: readonly TemplateEntry[] = [...catalogue, ...own.map(officeEntry), ...officeLinked().map(officeEntry)];
  return {
    templates: all.filter(({ source, choosing }) => source === undefined && !choosing),
    choosingTemplates: all.filter(({ choosing }) => choosing),
    linkedTemplates: all.filter(({ source }) => source !== undefined),
  };
}
let listed = lists();
onOfficeTemplates(() => (listed = lists()));

const engine: Engine = {
  get templates() {
    return listed.templates;
  },
  get choosingTemplates() {
    return listed.choosingTemplates;
  },
  get linkedTemplates() {
    return listed.linkedTemplates;
  },
  template: loadKnownTemplate,
  expand: async (template, inputs) => (await import("../src/sheet/index.ts")).expand(template, inputs),
  conflictsIn: async (plan) => (await checker()).conflictsIn(plan),
  sheetsOf: async (host, template) => (await checker()).sheetsOf(host, template),
  linkedPlan: async (host, id, source) => {
    const [{ linkedPlan }, template] = await Promise.all([checker(), loadKnownTemplate(id)]);
    return linkedPlan(host, template, source);
  },
  linkAgain: async (host, linkedSheet, source) => (await checker()).linkAgain(host, linkedSheet, source),
  recognise: async (host, sheet) => (await checker()).recognise(host, sheet),
  missingTemplate: async (host, sheet) => (await checker()).missingTemplate(host, sheet),
  hasQuickStart: async (template) => (await checker()).hasQuickStart(template),
  fromChoice: async (host, sheet) => (await checker()).fromChoice(host, sheet, loadTemplate),
  quickStart: async (template, answers) => (await checker()).quickStart(template, answers),
  prepareQuickStart: async (template, answered, signal) =>
    (await checker()).prepareQuickStart(template, answered, signal),
  quickStartSheet: async (template, of) => (await checker()).quickStartSheet(template, of),
  changeOfSheet: async (from, template, shape, parked) =>
    (await checker()).changeOfSheet(from, template, shape, parked),
};

/** Shows the side panel in an element, for the workbook of a host. */
export function mountPanel(element: HTMLElement, host: Host): void {
  render(h(Panel, { host, engine }), element);
  // What fails is told in the list of templates.
  void startOfficeTemplates();
}
