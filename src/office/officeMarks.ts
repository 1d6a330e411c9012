import type { FileSheet } from "../hosts/index.ts";
import type { Template } from "../sheet/index.ts";
import type { OfficeDefaults } from "./defaults.ts";

/** A sheet that says which of its inputs are the office's, and of which version. */
export function withOfficeMarks(sheet: FileSheet, template: Template, defaults: OfficeDefaults): FileSheet {
  return { ...sheet, plan: defaults.planned(sheet.plan, template) };
}
