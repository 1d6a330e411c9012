/**
 * Has the browser ask before the page is left while something would be lost: a workbook that differs from its file, or entries in a form of
 * the panel whose sheet is not built.
 */
export function askBeforeLeaving(panel: HTMLElement, edits: () => number, unsaved: () => boolean): void {
  let editsWhenTyped: number | undefined;
  panel.addEventListener("input", ({ target }) => {
    if (target instanceof Element && target.closest(".kb-form")) editsWhenTyped = edits();
  });
  window.addEventListener("beforeunload", (event) => {
    if (unsaved() || edits() === editsWhenTyped) event.preventDefault();
  });
}
