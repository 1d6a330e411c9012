import { h, render } from "preact";
import type { Host } from "../src/hosts/index.ts";
import { conflictsIn } from "../src/checker/index.ts";
import { expand } from "../src/sheet/index.ts";
import { templates } from "../src/templates/index.ts";
import { Panel } from "./panel.tsx";
import "./panel.css";

export { rememberBuilt } from "./built.ts";

/** Shows the side panel in an element, for the workbook of a host. */
export function mountPanel(element: HTMLElement, host: Host): void {
  render(h(Panel, { host, engine: { templates, expand, conflictsIn } }), element);
}
