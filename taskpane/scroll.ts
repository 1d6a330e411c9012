/** Scrolls whatever an element stands in, the panel or the whole page, to its top. An element out of sight moves nothing. */
export function scrollToTop(element: HTMLElement | null): void {
  if (!element || element.getClientRects().length === 0) return;
  for (let around: HTMLElement | null = element; around; around = around.parentElement) around.scrollTop = 0;
}

/** Scrolls so that an element stands at the top of what is in view. */
export function scrollInView(element: HTMLElement | null): void {
  element?.scrollIntoView({ block: "start" });
}

const around = (element: HTMLElement | null): readonly HTMLElement[] =>
  element ? [element, ...around(element.parentElement)] : [];

/** How far everything is scrolled that an element stands in, from the inside out. */
export const scrolledTo = (element: HTMLElement | null): readonly number[] =>
  around(element).map(({ scrollTop }) => scrollTop);

/** Scrolls it there again; to its top where nothing is known. */
export function scrollBack(element: HTMLElement | null, to: readonly number[] = []): void {
  around(element).forEach((one, i) => {
    one.scrollTop = to[i] ?? 0;
  });
}
