import type { RefObject } from "preact";
import { useLayoutEffect, useRef } from "preact/hooks";

/**
 * Brings the focus back where it got lost with what went away, or where the grid took it while a sheet was built.
 * Another part of the panel keeps it.
 */
export function focusBack(to: HTMLElement | null | undefined): void {
  if (to && !to.closest(".kb-panel")?.contains(document.activeElement)) to.focus();
}

/** The first button of a place whose buttons change as work begins and ends has the focus then. */
export function useFocusBack(place: RefObject<HTMLElement>, busy: boolean): void {
  const before = useRef(busy);
  useLayoutEffect(() => {
    if (before.current !== busy) focusBack(place.current?.querySelector("button"));
    before.current = busy;
  }, [place, busy]);
}
