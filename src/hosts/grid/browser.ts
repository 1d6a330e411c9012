import * as core from "@univerjs/core";
import { FUniver } from "@univerjs/core/facade";
import * as formula from "@univerjs/engine-formula";
import {
  CellAlertManagerService,
  IDescriptionService,
  IEditorBridgeService,
  UniverSheetsCorePreset,
} from "@univerjs/preset-sheets-core";
import coreLocale from "@univerjs/preset-sheets-core/locales/en-US";
import { UniverSheetsConditionalFormattingPreset } from "@univerjs/preset-sheets-conditional-formatting";
import highlightLocale from "@univerjs/preset-sheets-conditional-formatting/locales/en-US";
import {
  DataValidatorRegistryService,
  UniverSheetsDataValidationPreset,
} from "@univerjs/preset-sheets-data-validation";
import validationLocale from "@univerjs/preset-sheets-data-validation/locales/en-US";
import "@univerjs/preset-sheets-core/lib/index.css";
import "@univerjs/preset-sheets-conditional-formatting/lib/index.css";
import "@univerjs/preset-sheets-data-validation/lib/index.css";
import { worksheetFunctions } from "../../../functions/index.ts";
import { closeLists, withdrawAlerts } from "./choosing.ts";
import { descriptions } from "./descriptions.ts";
import "./grid.css";
import { GridHost } from "./gridHost.ts";
import { labelControls } from "./labels.ts";
import { refuseLongTyping } from "./longTyping.ts";
import { nameRefused } from "./refusedEntry.ts";
import { emptyWorkbook, registerPlugins } from "./runtime.ts";

const guarded =
  "This cell is protected. Type into the framed input cells; to build the sheet otherwise, use Build in the panel.";
const guardedFor = ["alertContent", "commonErr", "editErr", "pasteErr", "setStyleErr", "formulaErr"];
/**
 * The grid's own words speak of a creator who could give leave; here nobody can, and nobody need. For computing that
 * takes long it has none.
 */
const working = {
  analyzing: "Working out what depends on what …",
  calculating: "Computing …",
  "array-analysis": "Working out what fills several cells …",
  "array-calculation": "Computing what fills several cells …",
  done: "Computed",
};
const ownWords = {
  "sheets-formula": { progress: working },
  "sheets-ui": { permission: { dialog: Object.fromEntries(guardedFor.map((key) => [key, guarded])) } },
};
// The program hands on a merge whose types it does not bring along.
const merge = core.merge as unknown as (...parts: readonly object[]) => object;
const locale = merge({}, coreLocale, validationLocale, highlightLocale, ownWords) as typeof coreLocale;

const localesShown = { [core.LocaleType.EN_US]: locale };

/** What may be done to a whole sheet from its tab: that its cells are protected does not forbid it. */
const tabMenu = Object.fromEntries(
  ["sheet.command.remove-sheet-confirm", "sheet.operation.rename-sheet", "sheet.command.copy-sheet"].map((id) => [
    id,
    { disabled: false },
  ]),
);

/** Follows the light or dark theme of the system. */
function followTheme(api: FUniver): void {
  const dark = window.matchMedia("(prefers-color-scheme: dark)");
  const follow = (): void => api.toggleDarkMode(dark.matches);
  follow();
  dark.addEventListener("change", follow);
}

const input = ["keydown", "keypress", "beforeinput", "paste", "cut", "drop", "pointerdown", "mousedown", "dblclick"];

/**
 * No click or key reaches the grid until the returned function is called. Its focus is left alone: the grid keeps count
 * of that by itself.
 */
function hold(container: HTMLElement): () => void {
  const keep = (event: Event): void => {
    const { target } = event;
    // Without a focus, keys go to the page as a whole, where the grid listens too.
    if (target !== document.body && !(target instanceof Node && container.contains(target))) return;
    event.stopImmediatePropagation();
    event.preventDefault();
  };
  for (const kind of input) window.addEventListener(kind, keep, { capture: true });
  return () => {
    for (const kind of input) window.removeEventListener(kind, keep, { capture: true });
  };
}

/** What the grid will say of a refusal is put in its words before the key, the double click or the paste reaches it. */
function sayWhyLocked(container: HTMLElement, univer: core.Univer, host: GridHost): void {
  const words = univer.__getInjector().get(core.LocaleService);
  const put = (event: Event): void => {
    const { target } = event;
    if (target !== document.body && !(target instanceof Node && container.contains(target))) return;
    const why = host.whyLocked() ?? guarded;
    const dialog = Object.fromEntries(["editErr", "pasteErr", "formulaErr"].map((key) => [key, why]));
    words.load({ [core.LocaleType.EN_US]: { "sheets-ui": { permission: { dialog } } } });
  };
  for (const kind of ["keydown", "dblclick", "paste", "beforeinput"])
    window.addEventListener(kind, put, { capture: true });
}

/** Opens the grid in an element of the page, which it fills: formula bar, cells and sheet tabs. */
export function openGridInBrowser(container: HTMLElement): GridHost {
  const { LocaleType, LogLevel, Univer } = core;
  const univer = new Univer({
    logLevel: LogLevel.WARN,
    locale: LocaleType.EN_US,
    locales: localesShown,
  });
  const sheets = UniverSheetsCorePreset({
    container,
    header: true,
    toolbar: false,
    formulaBar: true,
    menu: tabMenu,
    footer: { sheetBar: true, statisticBar: false, menus: false, zoomSlider: false },
    statusBarStatistic: false,
    disableTextFormatAlert: true,
    disableTextFormatMark: true,
    sheets: { protectedRangeShadow: false, disableForceStringAlert: true, disableForceStringMark: true },
  });
  registerPlugins(univer, [
    sheets.plugins,
    // A list with a search field of its own would take the keys that are meant for the cell.
    UniverSheetsDataValidationPreset({ showSearchOnDropdown: false }).plugins,
    UniverSheetsConditionalFormattingPreset().plugins,
  ]);
  const api = FUniver.newAPI(univer);
  const runtime = { core, formula, univer, api, onScreen: true, hold: () => hold(container) } as const;
  const workbook = api.createWorkbook(emptyWorkbook());
  const host = new GridHost(runtime, workbook);
  closeLists(runtime, workbook);
  nameRefused(univer.__getInjector().get(DataValidatorRegistryService), workbook);
  withdrawAlerts(runtime, univer.__getInjector().get(CellAlertManagerService));
  univer.__getInjector().get(IDescriptionService).registerDescriptions(descriptions(runtime, worksheetFunctions));
  followTheme(api);
  sayWhyLocked(container, univer, host);
  const editor = univer.__getInjector().get(IEditorBridgeService);
  refuseLongTyping(
    container,
    () => editor.isVisible().visible,
    (text) => host.tell(text),
  );
  labelControls(container);
  return host;
}
