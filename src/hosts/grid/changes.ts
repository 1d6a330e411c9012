import type { IUndoRedoService } from "@univerjs/core";
import { workbookId, type GridRuntime } from "./runtime.ts";

/**
 * Calls the listener after each change of the workbook that can be taken back, and after it was taken back or done
 * again. The grid itself tells of its steps at each change of the focus too.
 */
export function onChanged({ core, univer }: GridRuntime, listener: () => void): void {
  const injector = univer.__getInjector();
  const steps = injector.get(core.IUndoRedoService);
  // Taken from the class: what is handed out stands in for the service, and keeps each method as it was first read.
  const own = core.LocalUndoRedoService.prototype;
  steps.pushUndoRedo = function (this: IUndoRedoService, step) {
    own.pushUndoRedo.call(this, step);
    if (step.unitID === workbookId) listener();
  };
  // Called for steps that were taken back or done again, whatever has the focus: the cell editor has steps of its own.
  steps.popUndoToRedo = function (this: IUndoRedoService) {
    const step = this.pitchTopUndoElement();
    own.popUndoToRedo.call(this);
    if (step?.unitID === workbookId) listener();
  };
  steps.popRedoToUndo = function (this: IUndoRedoService) {
    const step = this.pitchTopRedoElement();
    own.popRedoToUndo.call(this);
    if (step?.unitID === workbookId) listener();
  };
}
