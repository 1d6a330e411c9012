/** The first of pieces in order that ends beyond a place; behind all of them the last. Where two meet it is the one behind. */
export function pieceAt<P extends { readonly to: number }>(pieces: readonly P[], place: number): P {
  let low = 0;
  let high = pieces.length - 1;
  while (low < high) {
    const middle = (low + high) >> 1;
    if (place < pieces[middle]!.to) high = middle;
    else low = middle + 1;
  }
  return pieces[low]!;
}
