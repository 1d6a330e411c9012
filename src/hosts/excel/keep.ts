const sides = ["EdgeTop", "EdgeRight", "EdgeBottom", "EdgeLeft"] as const;

/** Loads what a cell looks like. To be called after the next sync, the result remembers that look and gives what puts it back. */
export function keepLook(cell: Excel.Range): () => () => void {
  const { format } = cell;
  const { font, fill } = format;
  const borders = sides.map((side) => format.borders.getItem(side));
  cell.load("numberFormat");
  format.load("horizontalAlignment,verticalAlignment,wrapText");
  font.load("size,color,bold,italic");
  fill.load("color,pattern");
  for (const border of borders) border.load("style,weight,color");
  return () => {
    const numberFormat = cell.numberFormat as string[][];
    const { horizontalAlignment, verticalAlignment, wrapText } = format;
    const { size, color, bold, italic } = font;
    const background = fill.pattern === "None" ? undefined : fill.color;
    const lines = borders.map(({ style, weight, color: lineColor }) => ({ style, weight, color: lineColor }));
    return () => {
      cell.numberFormat = numberFormat;
      Object.assign(format, { horizontalAlignment, verticalAlignment, wrapText });
      Object.assign(font, { size, color, bold, italic });
      if (background) fill.color = background;
      else fill.clear();
      borders.forEach((border, i) => {
        const line = lines[i]!;
        if (line.style === "None") border.style = "None";
        else Object.assign(border, line);
      });
    };
  };
}
