import { guard, type RangeTarget } from "./services.ts";
import { cellAt, cellsOf, changeCell, type Edge, type FakeCell, type Line } from "./state.ts";
import { act, Misuse, strictObject, type Handle, type Property, type Shape } from "./strict.ts";

/** The common value of all cells, or null where they differ. */
function common<V>(target: RangeTarget, of: (cell: FakeCell) => V): V | null {
  const values = target.areas.flatMap((area) =>
    [...cellsOf(area)].map(([row, column]) => of(cellAt(target.sheet, row, column))),
  );
  return values.every((value) => JSON.stringify(value) === JSON.stringify(values[0])) ? values[0]! : null;
}

function changeAll(target: RangeTarget, what: string, change: (cell: FakeCell) => void): void {
  guard(target, what);
  for (const area of target.areas)
    for (const [row, column] of cellsOf(area)) changeCell(target.sheet, row, column, change);
}

type Plain =
  | "size"
  | "color"
  | "bold"
  | "italic"
  | "horizontalAlignment"
  | "indentLevel"
  | "verticalAlignment"
  | "wrapText"
  | "shrinkToFit"
  | "locked";

function ofCells<K extends Plain>(key: K, allowed: (value: unknown) => boolean): Property<RangeTarget> {
  return {
    read: (target) => common(target, (cell) => cell[key]),
    write: (target, value: FakeCell[K]) => {
      if (!allowed(value)) throw new Misuse(`${key} cannot be ${String(value)}`);
      changeAll(target, key, (cell) => {
        cell[key] = value;
      });
    },
  };
}

const isColor = (value: unknown): boolean => typeof value === "string" && /^#[0-9a-f]{6}$/i.test(value);
const isBoolean = (value: unknown): boolean => typeof value === "boolean";
const among =
  (...allowed: readonly string[]) =>
  (value: unknown): boolean =>
    allowed.includes(value as string);
const isLength = (value: unknown): boolean => typeof value === "number" && value > 0 && value <= 409;

const font: Shape<RangeTarget> = {
  kind: "RangeFont",
  properties: {
    size: ofCells("size", isLength),
    color: ofCells("color", isColor),
    bold: ofCells("bold", isBoolean),
    italic: ofCells("italic", isBoolean),
  },
};

const fill: Shape<RangeTarget> = {
  kind: "RangeFill",
  properties: {
    color: {
      read: (target) => common(target, (cell) => cell.fill ?? "#FFFFFF"),
      write: (target, value: string) => {
        if (!isColor(value)) throw new Misuse(`a fill cannot be ${value}`);
        changeAll(target, "fill", (cell) => {
          cell.fill = value;
        });
      },
    },
    pattern: { read: (target) => common(target, (cell) => (cell.fill === undefined ? "None" : "Solid")) },
  },
  methods: {
    clear: (self) =>
      act(self, "clear", (target) =>
        changeAll(target, "fill", (cell) => {
          cell.fill = undefined;
        }),
      ),
  },
};

interface EdgeTarget extends RangeTarget {
  readonly edge: Edge;
}

/** The cells of each area that lie at the edge: an edge is of the area, not of each cell in it. */
function* atEdge({ areas, edge }: EdgeTarget): Generator<[number, number]> {
  for (const area of areas) {
    const { row, column, rows, columns } = area;
    for (const [r, c] of cellsOf(area))
      if (
        {
          EdgeTop: r === row,
          EdgeBottom: r === row + rows - 1,
          EdgeLeft: c === column,
          EdgeRight: c === column + columns - 1,
        }[edge]
      )
        yield [r, c];
  }
}

const none: Line = { style: "None", weight: "Thin", color: "#000000" };

function ofLine(key: keyof Line, allowed: (value: unknown) => boolean): Property<EdgeTarget> {
  return {
    read: (target) => {
      const lines = [...atEdge(target)].map(([r, c]) => (cellAt(target.sheet, r, c).borders[target.edge] ?? none)[key]);
      return lines.every((line) => line === lines[0]) ? lines[0] : null;
    },
    write: (target, value: string) => {
      if (!allowed(value)) throw new Misuse(`the ${key} of a border cannot be ${value}`);
      guard(target, "a border");
      for (const [r, c] of atEdge(target))
        changeCell(target.sheet, r, c, (cell) => {
          const line = { ...(cell.borders[target.edge] ?? { ...none, style: "Continuous" }), [key]: value };
          const { [target.edge]: _old, ...others } = cell.borders;
          cell.borders = line.style === "None" ? others : { ...others, [target.edge]: line };
        });
    },
  };
}

const border: Shape<EdgeTarget> = {
  kind: "RangeBorder",
  properties: {
    style: ofLine(
      "style",
      among("None", "Continuous", "Dash", "DashDot", "DashDotDot", "Dot", "Double", "SlantDashDot"),
    ),
    weight: ofLine("weight", among("Hairline", "Thin", "Medium", "Thick")),
    color: ofLine("color", isColor),
  },
};

const borders: Shape<RangeTarget> = {
  kind: "RangeBorderCollection",
  methods: {
    getItem: (self: Handle<RangeTarget>, edge: Edge) => {
      if (!among("EdgeTop", "EdgeRight", "EdgeBottom", "EdgeLeft")(edge))
        throw new Misuse(`the fake knows no border ${edge}`);
      return strictObject<EdgeTarget>(self.context, border, () => ({ ...self.target(), edge }));
    },
  },
};

const protection: Shape<RangeTarget> = {
  kind: "FormatProtection",
  properties: { locked: ofCells("locked", isBoolean) },
};

function size(of: "widths" | "heights"): Property<RangeTarget> {
  return {
    read: ({ sheet, areas }) => sheet[of].get(of === "widths" ? areas[0]!.column : areas[0]!.row) ?? null,
    write: (target, value: number) => {
      if (!isLength(value) && of === "heights") throw new Misuse(`a row cannot be ${value} points high`);
      guard(target, of);
      for (const area of target.areas)
        for (const [row, column] of cellsOf(area)) target.sheet[of].set(of === "widths" ? column : row, value);
    },
  };
}

export const rangeFormat: Shape<RangeTarget> = {
  kind: "RangeFormat",
  properties: {
    columnWidth: size("widths"),
    rowHeight: size("heights"),
    indentLevel: ofCells("indentLevel", (value) => Number.isInteger(value)),
    wrapText: ofCells("wrapText", isBoolean),
    shrinkToFit: ofCells("shrinkToFit", isBoolean),
    horizontalAlignment: ofCells("horizontalAlignment", among("General", "Left", "Center", "Right")),
    verticalAlignment: ofCells("verticalAlignment", among("Top", "Center", "Bottom")),
  },
  parts: {
    font: ({ context, target }) => strictObject(context, font, target),
    fill: ({ context, target }) => strictObject(context, fill, target),
    borders: ({ context, target }) => strictObject(context, borders, target),
    protection: ({ context, target }) => strictObject(context, protection, target),
  },
};
