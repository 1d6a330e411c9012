import { h, render } from "preact";
import type { Host } from "../src/hosts/index.ts";
import { expand } from "../src/sheet/index.ts";
import { linkedTemplates, templates } from "../src/templates/index.ts";
import type { Engine } from "./engine.ts";
import { Panel } from "./panel.tsx";
import "./panel.css";

export { forgetBuilt, rememberBuilt } from "./built.ts";

/** The calculation behind these loads when a sheet is first built. */
const checker = () => import("../src/checker/index.ts");

const engine: Engine = {
  templates,
  linkedTemplates,
  expand,
  conflictsIn: async (plan) => (await checker()).conflictsIn(plan),
  sourcesFor: async (host, template) => (await checker()).sourcesFor(host, template),
  linkedPlan: async (host, template, source) => (await checker()).linkedPlan(host, template, source),
  linkAgain: async (host, linkedSheet, source) => (await checker()).linkAgain(host, linkedSheet, source),
  recognise: async (host, sheet) => (await checker()).recognise(host, sheet),
  quickStart: async (template, answers) => (await checker()).quickStart(template, answers),
  prepareQuickStart: async (template, product) => (await checker()).prepareQuickStart(template, product),
  assumedMarks: async (plan, assumed, proposed) => (await checker()).assumedMarks(plan, assumed, proposed),
  changeOfSheet: async (from, template, shape, parked) =>
    (await checker()).changeOfSheet(from, template, shape, parked),
};

/** Shows the side panel in an element, for the workbook of a host. */
export function mountPanel(element: HTMLElement, host: Host): void {
  render(h(Panel, { host, engine }), element);
}
