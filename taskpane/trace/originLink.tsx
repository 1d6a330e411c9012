import type { Label, Origin } from "../../src/checker/index.ts";
import type { Place } from "../../src/hosts/index.ts";
import { Sentence, TradeSymbol } from "./tradeSymbol.tsx";

/** An address as a button that goes there. */
export function PlaceLink({
  place,
  address,
  label,
  go,
}: {
  readonly place: Place;
  readonly address: string;
  readonly label: Label | undefined;
  readonly go: (to: Place) => void;
}) {
  return (
    <button
      type="button"
      class="kb-link"
      aria-label={`Go to ${address}${label?.description ? `, ${label.description}` : ""}`}
      onClick={() => go({ sheet: place.sheet, row: place.row, column: place.column })}
    >
      {address}
    </button>
  );
}

/** Where a reference leads, as a button that goes there; where it leads nowhere, as written. */
export function OriginLink({ origin, go }: { readonly origin: Origin; readonly go: (to: Place) => void }) {
  const { place, address, label } = origin;
  if (!place || address === undefined) return <code>{origin.text}</code>;
  return <PlaceLink place={place} address={address} label={label} go={go} />;
}

/** What cells are called. */
export function LabelWords({
  label,
  symbol = false,
}: {
  readonly label: Label | undefined;
  readonly symbol?: boolean;
}) {
  if (!label) return null;
  return (
    <>
      {label.item && <span class="kb-item">{label.item} </span>}
      <Sentence of={label.description} />
      {symbol && label.symbol && (
        <>
          {" "}
          <TradeSymbol of={label.symbol} />
        </>
      )}
    </>
  );
}

export const unitWords = (label: Label | undefined): string =>
  label && label.unit !== "–" && label.unit !== "-" ? label.unit : "";
