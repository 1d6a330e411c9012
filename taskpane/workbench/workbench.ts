import { openGridInBrowser, type GridHost } from "../../src/hosts/index.ts";
import { freeSheetName } from "../../src/sheet/index.ts";
import { catalogue, loadTemplate } from "../../src/templates/catalogue.ts";
import { forgetBuilt, mountPanel, officeState, onOfficeTemplates, rememberBuilt } from "../index.ts";
import { whyNot } from "../loading.ts";
import { makeDivider } from "./divider.ts";
import { mountBookBar } from "./keep/bookBar.tsx";
import { Books } from "./keep/books.ts";
import { browserShelf, shutShelf, type KeptBook, type Shelf } from "./keep/shelf.ts";
import { moveByKeys } from "./goTo.ts";
import { askBeforeLeaving } from "./leaving.ts";
import { openedSheets } from "./openedSheets.ts";
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

/** What the demonstration is made of: it loads while the grid opens. */
const demonstrated = catalogue[0]!;
const demonstration = () => Promise.all([import("../../src/sheet/index.ts"), loadTemplate(demonstrated.id)]);

/** The newcomer's first sight: the first template with its invented example, computed. */
async function buildDemonstration(host: GridHost): Promise<void> {
  const [{ expand }, template] = await demonstration();
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

/** The workbook of this page through reloads; each window of the browser has its own. */
const openHere = "kernbook open workbook";

/** Where this browser keeps workbooks, and those it keeps; where it keeps none, the page goes on and says why. */
async function shelfHere(): Promise<{ readonly shelf: Shelf; readonly kept: readonly KeptBook[] }> {
  try {
    const shelf = await browserShelf();
    return { shelf, kept: await shelf.list() };
  } catch (error) {
    console.warn(`Nothing can be kept in this browser: ${whyNot(error)}`);
    return { shelf: shutShelf(error), kept: [] };
  }
}

function hand(contents: Uint8Array, name: string): void {
  const type = "application/vnd.openxmlformats-officedocument.spreadsheetml.sheet";
  const link = document.createElement("a");
  link.href = URL.createObjectURL(new Blob([new Uint8Array(contents)], { type }));
  link.download = name;
  link.textContent = name;
  document.body.append(link);
  link.click();
  link.remove();
  // The browser reads the address after the click.
  setTimeout(() => URL.revokeObjectURL(link.href), 60_000);
}

/** Opens the workbook that was open here before a reload or a crash, else the demonstration; offers the one kept last. */
async function openBooks(host: GridHost): Promise<void> {
  const { shelf, kept } = await shelfHere();
  const sheetsOf = openedSheets(host, async (sheet) =>
    (await import("../../src/checker/index.ts")).recognise(host, sheet),
  );
  const rememberOpened = (): void => void sheetsOf().catch((error: unknown) => console.error(error));
  const before = kept.find(({ id }) => id === sessionStorage.getItem(openHere));
  if (!before) await buildDemonstration(host);
  const books = new Books(
    {
      host,
      shelf,
      hand,
      remember: (id) => (id === undefined ? sessionStorage.removeItem(openHere) : sessionStorage.setItem(openHere, id)),
      replaced: () => {
        forgetBuilt();
        rememberOpened();
      },
      newId: () => `${Date.now().toString(36)}-${Math.random().toString(36).slice(2)}`,
      now: () => Date.now(),
    },
    (await loadTemplate(demonstrated.id)).example.name,
  );
  if (before && !(await books.openKept(before))) await buildDemonstration(host);
  const latest = [...kept].sort((a, b) => b.at - a.at)[0];
  // Sheets of an office's template are known once it is loaded.
  onOfficeTemplates(() => {
    if (!officeState().isReading) rememberOpened();
  });
  mountBookBar(element("book"), books, before ? undefined : latest);
  document.addEventListener("visibilitychange", () => {
    if (document.visibilityState === "hidden") void books.keep();
  });
  askBeforeLeaving(
    element("panel"),
    () => host.edits,
    () => books.unsaved,
  );
}

async function open(): Promise<void> {
  const grid = element("grid");
  const sheet = document.createElement("div");
  sheet.id = "sheet";
  grid.append(sheet);
  // Whoever needs it waits for it, and is told what failed.
  demonstration().catch((error: unknown) => console.warn(error));
  const host = await openGridInBrowser(sheet);
  handle.host = host;
  handle.cellBox = (address) => boxOnPage(host.cellBox(address), sheet);
  makeDivider(element("divider"), element("panel"));
  mountPanel(element("panel"), host);
  moveByKeys(grid, host);
  turnByKey([grid, element("panel")], { grid: "[contenteditable]", panel: "[role=tab][aria-selected=true]" });
  await openBooks(host);
  element("opening").remove();
  handle.ready = true;
}

function fail(error: unknown): never {
  const text = whyNot(error);
  const place = document.createElement("p");
  place.className = "failure";
  place.setAttribute("role", "alert");
  place.textContent = `The workbench could not be opened: ${text}`;
  element("opening").replaceWith(place);
  throw error;
}

void open().catch(fail);
