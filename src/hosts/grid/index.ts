import type { Entry, GridHost } from "./gridHost.ts";

export type { Entry, GridHost };

// Each platform's part is loaded on demand, so that neither carries the other's.

/** Opens the grid without a screen. */
export async function openGridInNode(): Promise<GridHost> {
  return (await import(/* webpackIgnore: true */ "./node.ts")).openGridInNode();
}

/** Opens the grid in an element of the page, which it fills. */
export async function openGridInBrowser(container: HTMLElement): Promise<GridHost> {
  return (await import("./browser.ts")).openGridInBrowser(container);
}
