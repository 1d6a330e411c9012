import type { Place } from "../../src/hosts/index.ts";
import type { Origin } from "./inspect.ts";

/** The address as a button that goes there. */
export function OriginLink({ origin, go }: { readonly origin: Origin; readonly go: (to: Place) => void }) {
  const { place, address } = origin;
  if (!place) return <code>{origin.text}</code>;
  return <button type="button" class="kb-link" aria-label={`Go to ${address}${origin.meaning ? `, ${origin.meaning.description}` : ""}`} onClick={() => go({ sheet: place.sheet, row: place.row, column: place.column })}>{address}</button>;
}
