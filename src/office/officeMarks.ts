import type { FileSheet } from "../hosts/index.ts";
import { withEntered, type Template } from "../sheet/index.ts";
import type { OfficeDefaults } from "./defaults.ts";

/** A sheet that says which of its inputs are the office's, and of which version. */
export function withOfficeMarks(sheet: FileSheet, template: Template, defaults: OfficeDefaults): FileSheet {
  return { ...sheet, plan: withEntered(sheet.plan, defaults.marksFor(sheet.plan, template)) };
}
