/**
 * Has the browser ask before the page is left while something would be lost: entries in the workbook since now, or in a
 * form of the panel whose sheet is not built.
 */
export function askBeforeLeaving(panel: HTMLElement, edits: () => number): void {
  const before = edits();
  let editsWhenTyped: number | undefined;
  panel.addEventListener("input", ({ target }) => {
    if (target instanceof Element && target.closest(".kb-form")) editsWhenTyped = edits();
  });
  window.addEventListener("beforeunload", (event) => {
    const now = edits();
    if (now !== before || now === editsWhenTyped) event.preventDefault();
  });
}
