/** Scrolls whatever an element stands in, the panel or the whole page, to its top. An element out of sight moves nothing. */
export function scrollToTop(element: HTMLElement | null): void {
  if (!element || element.getClientRects().length === 0) return;
  for (let around: HTMLElement | null = element; around; around = around.parentElement) around.scrollTop = 0;
}
