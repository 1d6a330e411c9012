import type { Cell, Table } from "../core/index.ts";

type Rows = readonly (readonly Cell[])[];

/** Everyday rows for ranges that have an order or a geometry of their own, by the table's key. They belong to no project. */
const profile: Rows = [
  [0, 0, "TO_LEVEL"],
  [12, 400, "FROM_LEVEL"],
  [24, 0, "LINE"],
];

const rowsByKey: Readonly<Record<string, Rows>> = {
  controlPoints: profile,
  tendonPath: profile,
  jackCalibration: [
    [50, 200],
    [200, 800],
    [400, 1600],
    [600, 2380],
  ],
  stressAlongTendon: [
    [0, 1400],
    [6, 1350],
    [12, 1290],
    [24, 1190],
  ],
  outline: [
    [-300, 0],
    [300, 0],
    [300, 900],
    [-300, 900],
  ],
  voids: [
    [1, -120, 250],
    [1, 120, 250],
    [1, 120, 650],
    [1, -120, 650],
  ],
  stressedTendons: [
    [1, 2000, 300],
    [2, 2000, 380],
    [3, 2000, 460],
  ],
  strengthLayers: [
    ["BONDED", 1800, 120, 195, 1640, 1860, 0.035, 1100],
    ["BAR", 800, 50, 200, 500, 540, 0.05, 0],
  ],
  ducts: [
    [80, 120],
    [80, 250],
  ],
  tendonsInSection: [
    [1800, 120],
    [1800, 250],
  ],
  curingHistory: [
    [20, 3],
    [45, 4],
    [60, 8],
    [40, 4],
  ],
  maturityHistory: [
    [20, 4],
    [45, 4],
    [60, 12],
  ],
  sizingLimits: [
    [18, -2.3],
    [24, -3.5],
    [18, 0],
  ],
  temperatureHistory: [
    [15, 3],
    [12, 10],
    [18, 15],
  ],
  places: [[6], [12], [18]],
  planPoints: [
    [0, 0, "TO_LEVEL"],
    [12, 80, "FROM_LEVEL"],
    [24, 0, "LINE"],
  ],
  stressingProgramme: [
    [1, 2000, 300, 1500],
    [2, 2000, 380, 1500],
    [3, 2000, 460, 1500],
  ],
  measuredElongations: [[168], [160], [171]],
  calculatedElongations: [[165], [164], [166]],
  anchorages: [
    [300, 0, 240, 240, 1500, 1],
    [700, 0, 240, 240, 1500, 2],
  ],
  curveStations: [[0], [6], [12], [18], [24]],
  curvatures: [[0], [-0.45], [-0.6], [-0.45], [0]],
  strainsAlong: [[0.0001], [0.0004], [0.0005], [0.0004], [0.0001]],
  toppings: [[1200, 150, 1000, 33]],
  loadEvents: [
    [7, 350],
    [90, 250],
  ],
  stressConditions: [
    [350, 1.1, 18, -2.9, 400_000, 3.4e10, 500, 1000, "BOTH"],
    [1000, 0.8, 24, -3.5, 400_000, 3.4e10, 500, 1000, "BOTH"],
  ],
};

/** Rows that a table takes: its own, or rows of everyday values. `fill` gives the value of a column in a row. */
export function typicalRows(table: Table, fill: (column: Table["columns"][string], row: number) => Cell): Rows {
  const own = rowsByKey[table.key];
  if (own && own.every((row) => row.length === Object.keys(table.columns).length)) return own;
  return Array.from({ length: Math.max(2, table.minRows) }, (_, r) =>
    Object.values(table.columns).map((column) => fill(column, r)),
  );
}
