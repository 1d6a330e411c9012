import { hasSymbol, html, sentence, symbol, type Markup } from "../../typeset/index.ts";
import type { FormulaPiece } from "./inSymbols.ts";
import type { Label } from "./labels.ts";
import type { Origin } from "./origin.ts";

/** A name as it is set, and as it is compared. */
interface Name {
  readonly text: string;
  readonly set: Markup;
}

const bySymbol = (of: string): Name | undefined => (hasSymbol(of) ? { text: of, set: symbol(of) } : undefined);
const byWords = (of: string | undefined): Name | undefined =>
  of === undefined || of === "" ? undefined : { text: of, set: sentence(of) };

const ofCell = (label: Label | undefined): Name | undefined =>
  label && (bySymbol(label.symbol) ?? byWords(label.description));
const ofColumn = (label: Label | undefined): Name | undefined => label && (byWords(label.heading) ?? ofCell(label));

function fromTo(first: Name | undefined, last: Name | undefined): Markup | undefined {
  if (!first || !last || first.text === last.text) return (first ?? last)?.set;
  return html`${first.set} to ${last.set}`;
}

/** A column by what all of it is called, else by its first and last cell: a name of the first alone would be taken for that of all. */
function columnName({ label, lowest }: Origin): Markup | undefined {
  if (label?.heading !== undefined && label.heading === lowest?.heading) return ofColumn(label)!.set;
  return fromTo(ofCell(label), ofCell(lowest));
}

function rangeName(origin: Origin & { readonly place: NonNullable<Origin["place"]> }): Markup | undefined {
  const { rows, columns } = origin.place;
  if (columns === 1) return columnName(origin);
  const name = rows === 1 ? ofCell : ofColumn;
  return fromTo(name(origin.columns[0]), name(origin.columns.at(-1)));
}

function pieceInWords({ text, origin }: FormulaPiece): Markup {
  if (!origin?.place) return html`${text}`;
  const { place, label, address = text } = origin;
  const single = place.rows * place.columns === 1;
  const own = single && label ? bySymbol(label.symbol) : undefined;
  if (own) return own.set;
  const name = single ? ofCell(label)?.set : rangeName({ ...origin, place });
  return name ? html`<span class="kn-words">${name}</span> <span class="kn-quiet">[${address}]</span>` : html`${text}`;
}

/**
 * A formula with what its cells are called in place of addresses: a cell by its symbol; without one, and every range,
 * by its label with the address beside,
 * by which a checker finds it.
 */
export function formulaInWords(pieces: readonly FormulaPiece[]): Markup {
  return html`${pieces.map(pieceInWords)}`;
}
