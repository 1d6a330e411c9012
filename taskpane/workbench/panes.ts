/** F6, also with Ctrl, takes the focus from the grid to the panel and back, to where it last was: the grid keeps the Tab key to itself. */
export function turnByKey(panes: readonly HTMLElement[], first: Readonly<Record<string, string>>): void {
  const last = new Map<HTMLElement, HTMLElement>();
  const holding = (element: EventTarget | null): HTMLElement | undefined =>
    panes.find((pane) => element instanceof Node && pane.contains(element));
  window.addEventListener("focusin", ({ target }) => {
    const pane = holding(target);
    if (pane) last.set(pane, target as HTMLElement);
  });
  window.addEventListener(
    "keydown",
    (event) => {
      if (event.key !== "F6" || event.altKey || event.shiftKey || event.metaKey) return;
      event.preventDefault();
      event.stopPropagation();
      const from = holding(document.activeElement);
      const to = panes[(panes.indexOf(from ?? panes.at(-1)!) + 1) % panes.length]!;
      const before = last.get(to);
      // What was looked at may be gone, or stand in a view that is not shown.
      const back =
        before?.isConnected && before.getClientRects().length > 0
          ? before
          : to.querySelector<HTMLElement>(first[to.id]!);
      back?.focus();
    },
    true,
  );
}
