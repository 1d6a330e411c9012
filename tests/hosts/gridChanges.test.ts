/** The workbook counts as changed by entries and by taking them back, and by nothing else. */
import { expect, it } from "vitest";
import { nodeGrid } from "../../src/hosts/grid/node.ts";
import { workbookId } from "../../src/hosts/grid/runtime.ts";

it("is changed by an entry, by taking it back and doing it again, and not by the focus", async () => {
  const { host, runtime } = nodeGrid();
  const { core, univer } = runtime;
  const injector = univer.__getInjector();
  const units = injector.get(core.IUniverInstanceService);
  const counts: number[] = [];
  const since = async (act: () => unknown): Promise<void> => {
    const before = host.edits;
    await act();
    counts.push(host.edits - before);
  };
  units.focusUnit(workbookId);
  await since(() => host.enter({ sheet: "Sheet1", row: 0, column: 0 }, 17));
  expect(counts.pop()).toBeGreaterThan(0);
  await since(() => {
    // The panel takes the focus, and the grid has it back.
    units.focusUnit(null);
    units.focusUnit(workbookId);
  });
  expect(counts.pop()).toBe(0);
  const commands = injector.get(core.ICommandService);
  for (const step of [core.UndoCommand.id, core.RedoCommand.id]) {
    await since(() => commands.executeCommand(step));
    expect(counts.pop(), step).toBeGreaterThan(0);
  }
  // Nothing is left to do again.
  await since(() => commands.executeCommand(core.RedoCommand.id));
  expect(counts.pop()).toBe(0);
  // The cell editor has the focus, with steps of its own.
  const contexts = injector.get(core.IContextService);
  const editor = core.DOCS_NORMAL_EDITOR_UNIT_ID_KEY;
  injector.get(core.IUndoRedoService).pushUndoRedo({ unitID: editor, undoMutations: [], redoMutations: [] });
  contexts.setContextValue(core.FOCUSING_SHEET, true);
  contexts.setContextValue(core.EDITOR_ACTIVATED, true);
  await since(() => commands.executeCommand(core.UndoCommand.id));
  expect(counts.pop()).toBe(0);
  expect(injector.get(core.IUndoRedoService).pitchTopUndoElement()).toBeNull();
  contexts.setContextValue(core.EDITOR_ACTIVATED, false);
  await since(() => commands.executeCommand(core.UndoCommand.id));
  expect(counts.pop()).toBeGreaterThan(0);
  host.dispose();
});
