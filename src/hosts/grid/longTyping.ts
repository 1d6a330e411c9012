import { countText, limits } from "../xlsx/refusal.ts";

/** What the grid's cell editor takes at once without standing still: its work grows with the square of the length. */
const mostAtOnce = 2_000;

function broughtBy(event: Event): string {
  if (event instanceof ClipboardEvent) return event.clipboardData?.getData("text/plain") ?? "";
  return event instanceof InputEvent ? (event.data ?? "") : "";
}

/**
 * A long text put into a cell that is being edited would hold the page for minutes. It is refused in words; onto a
 * selected cell it can be pasted.
 */
export function refuseLongTyping(container: HTMLElement, editing: () => boolean, tell: (text: string) => void): void {
  const look = (event: Event): void => {
    const { target } = event;
    if (!(target instanceof Node) || !container.contains(target) || !editing()) return;
    const { length } = broughtBy(event);
    if (length <= mostAtOnce) return;
    event.stopImmediatePropagation();
    event.preventDefault();
    tell(
      `A text of ${countText(length)} characters was not put into the cell that is being edited: up to ` +
        `${countText(mostAtOnce)} at once. Leave the cell and paste onto it: there up to ${countText(limits.text)} are kept.`,
    );
  };
  for (const kind of ["paste", "beforeinput"]) window.addEventListener(kind, look, { capture: true });
}
