import { reasonOf } from "../../src/core/index.ts";
import { openGridInBrowser, type GridHost } from "../../src/hosts/index.ts";
import { expand, freeSheetName } from "../../src/sheet/index.ts";
import { templates } from "../../src/templates/index.ts";
import { mountPanel, rememberBuilt } from "../index.ts";
import { makeDivider } from "./divider.ts";
import { askBeforeLeaving } from "./leaving.ts";
import { turnByKey } from "./panes.ts";
import "./workbench.css";

/** For the browser's console and for tests, as `window.kernbook`. */
interface Handle {
  /** The demonstration sheet stands computed. */
  ready: boolean;
  host?: GridHost;
  /** Where a cell of the shown sheet, such as `D12`, stands on the page, in CSS pixels. */
  cellBox?: (address: string) => DOMRect;
}

const handle: Handle = { ready: false };
Object.assign(window, { kernbook: handle });

const element = (id: string): HTMLElement => document.getElementById(id)!;

/** The newcomer's first sight: the first template with its invented example, computed. */
async function buildDemonstration(host: GridHost): Promise<void> {
  const template = templates[0];
  if (!template) return;
  const plan = expand(template, template.example.inputs);
  const { sheet } = await host.apply(plan, {
    sheetName: freeSheetName(template.example.name, []),
    progress: (_done, _of, what) => (element("opening").textContent = `Building the demonstration sheet: ${what} …`),
  });
  rememberBuilt(plan, sheet);
  await host.select({ sheet, row: 0, column: 0 });
}

/** The grid counts from the corner of its largest canvas. */
function boxOnPage({ x, y, width, height }: DOMRect, grid: HTMLElement): DOMRect {
  const canvases = [...grid.querySelectorAll("canvas")].map((canvas) => canvas.getBoundingClientRect());
  const largest = canvases.reduce((most, box) => (box.width * box.height > most.width * most.height ? box : most));
  return new DOMRect(largest.x + x, largest.y + y, width, height);
}

async function open(): Promise<void> {
  const grid = element("grid");
  const sheet = document.createElement("div");
  sheet.id = "sheet";
  grid.append(sheet);
  const host = await openGridInBrowser(sheet);
  handle.host = host;
  handle.cellBox = (address) => boxOnPage(host.cellBox(address), sheet);
  makeDivider(element("divider"), element("panel"));
  mountPanel(element("panel"), host);
  turnByKey([grid, element("panel")], { grid: "[contenteditable]", panel: "[role=tab][aria-selected=true]" });
  await buildDemonstration(host);
  askBeforeLeaving(element("panel"), () => host.edits);
  element("opening").remove();
  handle.ready = true;
}

function fail(error: unknown): never {
  const text = reasonOf(error);
  const place = document.createElement("p");
  place.className = "failure";
  place.setAttribute("role", "alert");
  place.textContent = `The workbench could not be opened: ${text}`;
  element("opening").replaceWith(place);
  throw error;
}

void open().catch(fail);
