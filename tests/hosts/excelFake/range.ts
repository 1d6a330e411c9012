import { a1, type Area, areaA1, quotedSheet } from "../../../src/cells/index.ts";
import { rangeFormat } from "./formats.ts";
import { conditionalFormats, dataValidation } from "./rules.ts";
import { dependants } from "./references.ts";
import { guard, type Computed, type RangeTarget } from "./services.ts";
import { cellAt, cellsOf, changeCell, emptyCell, keyOf, type FakeCell } from "./state.ts";
import {
  act,
  Misuse,
  OfficeError,
  strictObject,
  type FakeContext,
  type Handle,
  type Property,
  type Shape,
} from "./strict.ts";
import { tableMethods } from "./tables.ts";
import { enter, rectangle } from "./values.ts";

const single = ({ areas }: RangeTarget): Area => areas[0]!;

function table<V>(target: RangeTarget, of: (cell: FakeCell, key: string) => V): V[][] {
  const { row, column, rows, columns } = single(target);
  return Array.from({ length: rows }, (_r, r) =>
    Array.from({ length: columns }, (_c, c) =>
      of(cellAt(target.sheet, row + r, column + c), keyOf(row + r, column + c)),
    ),
  );
}

/** What cells show, formulas computed. */
function shown<V>(of: (cell: FakeCell, computed: Computed | undefined) => V): Property<RangeTarget>["read"] {
  return async (target) => {
    const { services, sheet } = target;
    const hasFormulas = services.workbook.sheets.some(({ cells }) =>
      [...cells.values()].some(({ formula }) => formula !== undefined),
    );
    const computed = hasFormulas ? (await services.computed()).get(sheet.id) : undefined;
    return table(target, (cell, key) => {
      const found = computed?.get(key);
      if (cell.formula !== undefined && !found) throw new Misuse(`the fake has no value for ${cell.formula}`);
      return of(cell, found);
    });
  };
}

const textOf = (value: FakeCell["value"]): string =>
  typeof value === "boolean" ? String(value).toUpperCase() : String(value);
const typeOf = (value: FakeCell["value"]): string =>
  value === "" ? "Empty" : { number: "Double", string: "String", boolean: "Boolean" }[typeof value as "number"];

function entered({ services, sheet }: RangeTarget): void {
  services.changed("entry", sheet.id);
  services.changed("calculation", sheet.id);
}

function writeCells(target: RangeTarget, value: unknown): void {
  const { row, column, rows, columns } = single(target);
  const given = rectangle(value, rows, columns, "Range.formulas");
  for (const [r, c] of cellsOf(single(target))) {
    const entry = given[r - row]![c - column];
    if (entry === null) continue;
    guard(target, `writing ${a1({ row: r, column: c })}`, cellAt(target.sheet, r, c).locked);
    changeCell(target.sheet, r, c, (cell) => enter(cell, entry));
  }
  entered(target);
}

const properties: Shape<RangeTarget>["properties"] = {
  values: { read: shown((cell, computed) => computed?.value ?? cell.value), write: writeCells },
  text: { read: shown((cell, computed) => computed?.text ?? textOf(cell.value)) },
  valueTypes: {
    read: shown((cell, computed) =>
      computed
        ? computed.error
          ? "Error"
          : computed.value === ""
            ? "String"
            : typeOf(computed.value)
        : typeOf(cell.value),
    ),
  },
  formulas: { read: (target) => table(target, ({ formula, value }) => formula ?? value), write: writeCells },
  numberFormat: {
    read: (target) => table(target, ({ numberFormat }) => numberFormat),
    write: (target, value: unknown) => {
      guard(target, "a number format");
      const { row, column, rows, columns } = single(target);
      const given = rectangle(value, rows, columns, "Range.numberFormat");
      for (const [r, c] of cellsOf(single(target)))
        changeCell(target.sheet, r, c, (cell) => {
          cell.numberFormat = String(given[r - row]![c - column]);
        });
    },
  },
  address: { read: (target) => `${quotedSheet(target.sheet.name)}!${areaA1(single(target), false)}` },
  rowIndex: { read: (target) => single(target).row },
  columnIndex: { read: (target) => single(target).column },
  rowCount: { read: (target) => single(target).rows },
  columnCount: { read: (target) => single(target).columns },
};

function merge(target: RangeTarget): void {
  guard(target, "joining cells");
  const area = single(target);
  for (const [row, column] of cellsOf(area)) {
    if (row === area.row && column === area.column) continue;
    const cell = cellAt(target.sheet, row, column);
    if (cell.value !== "" || cell.formula !== undefined)
      throw new Misuse(`joining ${areaA1(area, false)} would lose what stands in ${a1({ row, column })}`);
  }
  target.sheet.merged.push({ ...area });
}

function clear(target: RangeTarget, what: string): void {
  const { sheet } = target;
  for (const [row, column] of cellsOf(single(target))) {
    guard(target, "clearing", cellAt(sheet, row, column).locked || what === "All");
    changeCell(
      sheet,
      row,
      column,
      (cell) => void Object.assign(cell, what === "All" ? emptyCell() : { value: "", formula: undefined }),
    );
  }
  entered(target);
}

/** The cells a formula fills, as far as they were computed beside it. */
async function spill({ services, sheet, areas: [area] }: RangeTarget): Promise<Area | undefined> {
  const computed = (await services.computed()).get(sheet.id)!;
  let rows = 1;
  let columns = 1;
  const filled = (r: number, c: number): boolean =>
    computed.has(keyOf(area!.row + r, area!.column + c)) && !sheet.cells.has(keyOf(area!.row + r, area!.column + c));
  while (filled(rows, 0)) rows++;
  while (filled(0, columns)) columns++;
  return rows * columns === 1 ? undefined : { row: area!.row, column: area!.column, rows, columns };
}

function spilling(self: Handle<RangeTarget>): object {
  let found: RangeTarget | undefined;
  self.context.enqueue("Range.getSpillingToRangeOrNullObject", async () => {
    const target = self.target();
    if (!target.services.has("1.12"))
      throw new OfficeError("ApiNotFound", "getSpillingToRangeOrNullObject is of ExcelApi 1.12");
    const area = await spill(target);
    found = area && { ...target, areas: [area] };
  });
  return strictObject(self.context, rangeShape, () => found, true);
}

function directDependents(self: Handle<RangeTarget>): object {
  const find = (): readonly RangeTarget[] => {
    const {
      services,
      sheet,
      areas: [area],
    } = self.target();
    if (!services.has("1.13")) throw new OfficeError("ApiNotFound", "getDirectDependents is of ExcelApi 1.13");
    const found = dependants(services.workbook, sheet, area!.row, area!.column);
    if (found.length === 0) throw new OfficeError("ItemNotFound", "the cell has no dependents");
    return found.map((one): RangeTarget => ({ services, sheet: one.sheet, areas: [one.area] }));
  };
  return strictObject<readonly RangeTarget[]>(
    self.context,
    {
      kind: "WorkbookRangeAreas",
      parts: {
        ranges: ({ context, target }) =>
          strictObject<readonly RangeTarget[]>(
            context,
            { kind: "RangeCollection", items: { shape: rangeShape, of: (all) => all } },
            target,
          ),
      },
    },
    find,
  );
}

const formatParts = {
  format: ({ context, target }: Handle<RangeTarget>) => strictObject(context, rangeFormat, target),
};

export const rangeShape: Shape<RangeTarget> = {
  kind: "Range",
  properties,
  parts: {
    ...formatParts,
    dataValidation: ({ context, target }) => strictObject(context, dataValidation, target),
    conditionalFormats: ({ context, target }) => strictObject(context, conditionalFormats, target),
  },
  methods: {
    merge: (self, across?: boolean) => act(self, "merge", (target) => (across ? undefined : merge(target))),
    clear: (self, what: string = "All") => {
      if (!["All", "Contents"].includes(what)) throw new Misuse(`the fake cannot clear ${what}`);
      act(self, "clear", (target) => clear(target, what));
    },
    group: (self, option: string) => {
      if (option !== "ByRows") throw new Misuse(`the fake cannot group ${option}`);
      act(self, "group", ({ services, sheet, areas }) => {
        if (!services.has("1.10")) throw new OfficeError("ApiNotFound", "group is of ExcelApi 1.10");
        for (const { row, rows } of areas) sheet.groups.push({ row, rows });
      });
    },
    select: (self) =>
      act(self, "select", ({ services, sheet, areas }) => {
        services.workbook.activeId = sheet.id;
        services.workbook.drawingSelected = false;
        sheet.selected = structuredClone([...areas]);
        services.changed("selection", sheet.id);
      }),
    getSpillingToRangeOrNullObject: spilling,
    getDirectDependents: directDependents,
    ...tableMethods,
  },
};

/** Several areas at once; the program gives them a look, but takes no values. */
export const rangeAreasShape: Shape<RangeTarget> = { kind: "RangeAreas", parts: formatParts };

export function rangeObject(context: FakeContext, find: () => RangeTarget): object {
  return strictObject(context, rangeShape, find);
}
