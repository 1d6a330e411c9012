import { createRequire } from "node:module";
import type * as Core from "@univerjs/core";
import type * as Facade from "@univerjs/core/facade";
import type * as Formula from "@univerjs/engine-formula";
import type * as NodeSheets from "@univerjs/preset-sheets-node-core";
import type NodeLocale from "@univerjs/preset-sheets-node-core/locales/en-US";
import type * as ConditionalFormats from "@univerjs/sheets-conditional-formatting";
import type * as NumberFormats from "@univerjs/sheets-numfmt";
import { GridHost } from "./gridHost.ts";
import { emptyWorkbook, registerPlugins, type GridRuntime, type GridWorkbook } from "./runtime.ts";

/** The grid without a screen, with its program and its workbook. */
export interface NodeGrid {
  readonly host: GridHost;
  readonly runtime: GridRuntime;
  readonly workbook: GridWorkbook;
}

export function nodeGrid(): NodeGrid {
  // Node cannot import the grid's ES modules (a named import of a CommonJS part fails), but it can require them.
  const require = createRequire(import.meta.url);
  const core = require("@univerjs/core") as typeof Core;
  const { FUniver } = require("@univerjs/core/facade") as typeof Facade;
  const formula = require("@univerjs/engine-formula") as typeof Formula;
  const { UniverSheetsNodeCorePreset } = require("@univerjs/preset-sheets-node-core") as typeof NodeSheets;
  const locale = require("@univerjs/preset-sheets-node-core/locales/en-US") as
    typeof NodeLocale | { readonly default: typeof NodeLocale };
  const { UniverSheetsConditionalFormattingPlugin } =
    require("@univerjs/sheets-conditional-formatting") as typeof ConditionalFormats;
  require("@univerjs/sheets-conditional-formatting/facade");
  const { UniverSheetsNumfmtPlugin } = require("@univerjs/sheets-numfmt") as typeof NumberFormats;

  const univer = new core.Univer({
    logLevel: core.LogLevel.WARN,
    locale: core.LocaleType.EN_US,
    locales: { [core.LocaleType.EN_US]: ("default" in locale ? locale.default : locale) as typeof NodeLocale },
  });
  registerPlugins(univer, [
    UniverSheetsNodeCorePreset().plugins,
    [UniverSheetsNumfmtPlugin, UniverSheetsConditionalFormattingPlugin],
  ]);
  const api = FUniver.newAPI(univer);
  const runtime: GridRuntime = { core, formula, univer, api, onScreen: false };
  const workbook = api.createWorkbook(emptyWorkbook());
  return { host: new GridHost(runtime, workbook), runtime, workbook };
}

/** Opens the grid without a screen: everything computes, nothing is drawn. */
export function openGridInNode(): GridHost {
  return nodeGrid().host;
}
