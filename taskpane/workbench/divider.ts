const narrowest = 280;
const step = 20;

/** Lets the panel be made wider or narrower with the pointer or the arrow keys. */
export function makeDivider(divider: HTMLElement, panel: HTMLElement): void {
  const widest = (): number => Math.max(narrowest, Math.round(window.innerWidth * 0.6));
  const tell = (width: number): void => {
    divider.setAttribute("aria-valuemin", String(narrowest));
    divider.setAttribute("aria-valuemax", String(widest()));
    divider.setAttribute("aria-valuenow", String(Math.round(width)));
  };
  const set = (width: number): void => {
    const kept = Math.min(widest(), Math.max(narrowest, width));
    document.documentElement.style.setProperty("--panel-width", `${kept}px`);
    tell(kept);
  };
  divider.addEventListener("pointerdown", (event) => {
    divider.setPointerCapture(event.pointerId);
    event.preventDefault();
  });
  divider.addEventListener("pointermove", (event) => {
    if (divider.hasPointerCapture(event.pointerId)) set(window.innerWidth - event.clientX);
  });
  divider.addEventListener("keydown", (event) => {
    const change = { ArrowLeft: step, ArrowRight: -step }[event.key];
    if (change === undefined) return;
    event.preventDefault();
    set(panel.getBoundingClientRect().width + change);
  });
  tell(panel.getBoundingClientRect().width);
}
