import { h, render } from "preact";
import type { Host } from "../src/hosts/index.ts";
import type { Conflict } from "../src/checker/index.ts";
import { expand, type Plan } from "../src/sheet/index.ts";
import { templates } from "../src/templates/index.ts";
import { Panel } from "./panel.tsx";
import "./panel.css";

export { rememberBuilt } from "./built.ts";

/** The calculation behind it loads when a sheet is first built. */
async function conflictsIn(plan: Plan): Promise<readonly Conflict[]> {
  const checker = await import("../src/checker/index.ts");
  return checker.conflictsIn(plan);
}

/** Shows the side panel in an element, for the workbook of a host. */
export function mountPanel(element: HTMLElement, host: Host): void {
  render(h(Panel, { host, engine: { templates, expand, conflictsIn } }), element);
}
