import { h, render } from "preact";
import type { Host } from "../src/hosts/index.ts";
import { catalogue, loadTemplate } from "../src/templates/catalogue.ts";
import type { Engine } from "./engine.ts";
import { Panel } from "./panel.tsx";
import "./panel.css";

export { forgetBuilt, rememberBuilt } from "./built.ts";

/** The calculation behind these loads when a sheet is first built. */
const checker = () => import("../src/checker/index.ts");

const engine: Engine = {
  templates: catalogue.filter(({ source, choosing }) => source === undefined && !choosing),
  choosingTemplates: catalogue.filter(({ choosing }) => choosing),
  linkedTemplates: catalogue.filter(({ source }) => source !== undefined),
  template: loadTemplate,
  expand: async (template, inputs) => (await import("../src/sheet/index.ts")).expand(template, inputs),
  conflictsIn: async (plan) => (await checker()).conflictsIn(plan),
  sheetsOf: async (host, template) => (await checker()).sheetsOf(host, template),
  linkedPlan: async (host, id, source) => {
    const [{ linkedPlan }, template] = await Promise.all([checker(), loadTemplate(id)]);
    return linkedPlan(host, template, source);
  },
  linkAgain: async (host, linkedSheet, source) => (await checker()).linkAgain(host, linkedSheet, source),
  recognise: async (host, sheet) => (await checker()).recognise(host, sheet),
  fromChoice: async (host, sheet) => (await checker()).fromChoice(host, sheet, loadTemplate),
  quickStart: async (template, answers) => (await checker()).quickStart(template, answers),
  prepareQuickStart: async (template, section, signal) =>
    (await checker()).prepareQuickStart(template, section, signal),
  assumedMarks: async (plan, assumed, proposed) => (await checker()).assumedMarks(plan, assumed, proposed),
  changeOfSheet: async (from, template, shape, parked) =>
    (await checker()).changeOfSheet(from, template, shape, parked),
};

/** Shows the side panel in an element, for the workbook of a host. */
export function mountPanel(element: HTMLElement, host: Host): void {
  render(h(Panel, { host, engine }), element);
}
