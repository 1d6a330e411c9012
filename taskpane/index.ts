import { h, render } from "preact";
import type { Host } from "../src/hosts/index.ts";
import type { Conflict } from "../src/checker/index.ts";
import { expand, type Plan } from "../src/sheet/index.ts";
import { templates } from "../src/templates/index.ts";
import type { Engine } from "./engine.ts";
import { Panel } from "./panel.tsx";
import "./panel.css";

export { rememberBuilt } from "./built.ts";

/** The calculation behind it loads when a sheet is first built. */
async function conflictsIn(plan: Plan): Promise<readonly Conflict[]> {
  const checker = await import("../src/checker/index.ts");
  return checker.conflictsIn(plan);
}

const recognise: Engine["recognise"] = async (host, sheet) => {
  const checker = await import("../src/checker/index.ts");
  return checker.recognise(host, sheet);
};

const carryOver: Engine["carryOver"] = async ({ template, inputs }, to, shape, parked) => {
  const checker = await import("../src/checker/index.ts");
  return checker.carryOver({ template, inputs, parked }, to, shape);
};

const quickStart: Engine["quickStart"] = async (template, answers) => {
  const checker = await import("../src/checker/index.ts");
  return checker.quickStart(template, answers);
};

const assumedMarks: Engine["assumedMarks"] = async (plan, assumed) => {
  const checker = await import("../src/checker/index.ts");
  return checker.assumedMarks(plan, assumed);
};

/** Shows the side panel in an element, for the workbook of a host. */
export function mountPanel(element: HTMLElement, host: Host): void {
  render(
    h(Panel, { host, engine: { templates, expand, conflictsIn, recognise, carryOver, quickStart, assumedMarks } }),
    element,
  );
}
