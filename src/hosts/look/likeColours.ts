/** Letters that differ from their ground by no more than this in red, green and blue, each of 255, cannot be read. */
const most = 32;

/** Whether letters of one colour on a ground of the other cannot be read; both as `#RRGGBB`. */
export function likeColours(letters: string, ground: string): boolean {
  const [a, b] = [letters, ground].map((hex) =>
    /^#([0-9a-f]{2})([0-9a-f]{2})([0-9a-f]{2})$/i
      .exec(hex)
      ?.slice(1)
      .map((part) => parseInt(part, 16)),
  );
  return a && b
    ? a.every((value, i) => Math.abs(value - b[i]!) <= most)
    : letters.toUpperCase() === ground.toUpperCase();
}
