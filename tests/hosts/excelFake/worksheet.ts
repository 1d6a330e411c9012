import { areaA1, quotedSheet } from "../../../src/cells/index.ts";
import { faultOfSheetName, isSheetNameTaken } from "../../../src/sheet/index.ts";
import { charts } from "./charts.ts";
import { rangeAreasShape, rangeObject } from "./range.ts";
import { areaOfAddress } from "./references.ts";
import { usedRange } from "./used.ts";
import { shapes } from "./shapes.ts";
import { guard, type RangeTarget, type SheetTarget } from "./services.ts";
import type { FakeName, FakeSheet } from "./state.ts";
import { act, Misuse, OfficeError, strictObject, targetOf, type Handle, type Property, type Shape } from "./strict.ts";

const mostRows = 1_048_576;
const mostColumns = 16_384;
const longestAddress = 8_192;

export function checkName(target: SheetTarget, name: string): void {
  const fault = faultOfSheetName(name);
  if (fault !== undefined) throw new OfficeError("InvalidArgument", fault);
  if (
    isSheetNameTaken(
      name,
      target.services.workbook.sheets.filter((one) => one !== target.sheet).map((one) => one.name),
    )
  )
    throw new OfficeError("ItemAlreadyExists", `there is a sheet “${name}”`);
}

interface NameTarget {
  readonly formula: string;
  readonly name: string;
  /** Of names of the whole workbook: another formula, or none. */
  readonly change?: (formula: string | undefined) => void;
}
export const namedItem: Shape<NameTarget> = {
  kind: "NamedItem",
  properties: {
    name: { read: ({ name }) => name },
    formula: { read: ({ formula }) => formula, write: ({ change }, formula: string) => change!(formula) },
  },
  methods: { delete: (self: Handle<NameTarget>) => act(self, "delete", ({ change }) => change!(undefined)) },
};

const named = (sheet: FakeSheet, { name, area, lost }: FakeName): NameTarget => ({
  name,
  formula: lost ? "=#REF!" : `=${quotedSheet(sheet.name)}!${areaA1(area)}`,
});

const names: Shape<SheetTarget> = {
  kind: "NamedItemCollection",
  items: { shape: namedItem, of: ({ sheet }) => [...sheet.names.values()].map((one) => named(sheet, one)) },
  methods: {
    add: (self: Handle<SheetTarget>, name: string, range: object) => {
      act(self, "add", ({ sheet }) => {
        if (!/^[A-Za-z_\\][\w.\\]*$/.test(name) || /^[A-Za-z]{1,3}\d+$|^[RC]$|^R\d*C\d*$/i.test(name))
          throw new OfficeError("InvalidArgument", `“${name}” is no name`);
        if (sheet.names.has(name.toLowerCase()))
          throw new OfficeError("ItemAlreadyExists", `the name ${name} is taken`);
        sheet.names.set(name.toLowerCase(), { name, area: { ...targetOf<RangeTarget>(range, "Range").areas[0]! } });
      });
      return strictObject<NameTarget>(self.context, namedItem, () => undefined);
    },
    getItemOrNullObject: ({ context, target }: Handle<SheetTarget>, name: string) =>
      strictObject<NameTarget>(
        context,
        namedItem,
        () => {
          const { sheet } = target();
          const found = sheet.names.get(name.toLowerCase());
          return found && named(sheet, found);
        },
        true,
      ),
  },
};

const protectionOptions = [
  "allowAutoFilter",
  "allowDeleteColumns",
  "allowDeleteRows",
  "allowEditObjects",
  "allowEditScenarios",
  "allowFormatCells",
  "allowFormatColumns",
  "allowFormatRows",
  "allowInsertColumns",
  "allowInsertHyperlinks",
  "allowInsertRows",
  "allowPivotTables",
  "allowSort",
  "selectionMode",
];

const protection: Shape<SheetTarget> = {
  kind: "WorksheetProtection",
  properties: {
    protected: { read: ({ sheet }) => sheet.protection !== undefined },
    options: { read: ({ sheet }) => structuredClone(sheet.protection ?? {}) },
  },
  methods: {
    unprotect: (self: Handle<SheetTarget>) =>
      act(self, "unprotect", ({ sheet }) => {
        if (sheet.password) throw new OfficeError("AccessDenied", "the password is not correct");
        sheet.protection = undefined;
      }),
    protect: (self: Handle<SheetTarget>, options: Record<string, unknown> = {}, password?: string) => {
      if (password !== undefined) throw new Misuse("sheets are protected without a password");
      for (const key of Object.keys(options))
        if (!protectionOptions.includes(key)) throw new Misuse(`protection has no option ${key}`);
      act(self, "protect", (target) => {
        guard(target, "protecting again");
        target.sheet.protection = structuredClone(options);
      });
    },
  },
};

const freezePanes: Shape<SheetTarget> = {
  kind: "WorksheetFreezePanes",
  methods: {
    freezeAt: (self, range: object) =>
      act(self, "freezeAt", ({ sheet }) => {
        const { rows, columns } = targetOf<RangeTarget>(range, "Range").areas[0]!;
        sheet.freeze = { rows, columns };
      }),
    freezeRows: (self, rows: number) =>
      act(self, "freezeRows", ({ sheet }) => {
        sheet.freeze = { rows, columns: 0 };
      }),
    freezeColumns: (self, columns: number) =>
      act(self, "freezeColumns", ({ sheet }) => {
        sheet.freeze = { rows: 0, columns };
      }),
  },
};

const ofPage = (key: string): Property<SheetTarget> => ({
  read: ({ sheet }) => sheet.page[key],
  write: (target, value: unknown) => {
    guard(target, "the page");
    target.sheet.page[key] = value;
  },
});

const pageLayout: Shape<SheetTarget> = {
  kind: "PageLayout",
  properties: Object.fromEntries(
    ["orientation", "paperSize", "zoom", "centerHorizontally", "printOrder", "printHeadings"].map((key) => [
      key,
      ofPage(key),
    ]),
  ),
  parts: {
    headersFooters: ({ context, target }) =>
      strictObject<SheetTarget>(
        context,
        {
          kind: "HeaderFooterGroup",
          parts: {
            defaultForAllPages: () =>
              strictObject<SheetTarget>(
                context,
                { kind: "HeaderFooter", properties: { centerFooter: ofPage("centerFooter") } },
                target,
              ),
          },
        },
        target,
      ),
  },
  methods: {
    setPrintArea: (self, address: string) =>
      act(self, "setPrintArea", (target) => {
        guard(target, "the print area");
        target.sheet.page["areas"] = address.split(",").map(areaOfAddress);
      }),
    setPrintTitleRows: (self, range: object) =>
      act(self, "setPrintTitleRows", (target) => {
        guard(target, "the title rows");
        const { row, rows } = targetOf<RangeTarget>(range, "Range").areas[0]!;
        target.sheet.page["titleRows"] = [row, row + rows - 1];
      }),
  },
};

const pageBreaks: Shape<SheetTarget> = {
  kind: "PageBreakCollection",
  methods: {
    add: (self, range: object) =>
      act(self, "add", (target) => {
        guard(target, "the page breaks");
        const before = (target.sheet.page["breaks"] ?? []) as readonly number[];
        target.sheet.page["breaks"] = [...before, targetOf<RangeTarget>(range, "Range").areas[0]!.row];
      }),
  },
};

function remove({ services: { workbook, changed }, sheet }: SheetTarget): void {
  if (workbook.structureProtected) throw new OfficeError("AccessDenied", "the workbook's structure is protected");
  if (sheet.visibility === "VeryHidden")
    throw new OfficeError("InvalidOperation", "a sheet hidden for good cannot be deleted");
  const left = workbook.sheets.filter((one) => one !== sheet);
  if (!left.some(({ visibility }) => visibility === "Visible"))
    throw new OfficeError("InvalidOperation", "a workbook keeps one visible sheet");
  workbook.sheets = left;
  if (workbook.activeId === sheet.id) workbook.activeId = left.find(({ visibility }) => visibility === "Visible")!.id;
  changed("calculation", sheet.id);
}

export const worksheetShape: Shape<SheetTarget> = {
  kind: "Worksheet",
  properties: {
    id: { read: ({ sheet }) => sheet.id },
    name: {
      read: ({ sheet }) => sheet.name,
      write: (target, value: string) => {
        checkName(target, value);
        target.sheet.name = value;
      },
    },
    visibility: {
      read: ({ sheet }) => sheet.visibility,
      write: ({ sheet }, value: string) => {
        sheet.visibility = value;
      },
    },
    showGridlines: {
      read: ({ sheet }) => sheet.showGridlines,
      write: ({ sheet }, value: boolean) => {
        sheet.showGridlines = value;
      },
    },
  },
  parts: {
    names: ({ context, target }) => strictObject(context, names, target),
    protection: ({ context, target }) => strictObject(context, protection, target),
    freezePanes: ({ context, target }) => strictObject(context, freezePanes, target),
    pageLayout: ({ context, target }) => strictObject(context, pageLayout, target),
    horizontalPageBreaks: ({ context, target }) => strictObject(context, pageBreaks, target),
    charts: ({ context, target }) => strictObject(context, charts, target),
    shapes: ({ context, target }) => strictObject(context, shapes, target),
  },
  methods: {
    getRangeByIndexes: (
      { context, target }: Handle<SheetTarget>,
      row: number,
      column: number,
      rows: number,
      columns: number,
    ) => {
      const whole = [row, column, rows, columns].every(Number.isInteger);
      return rangeObject(context, () => {
        if (
          !whole ||
          row < 0 ||
          column < 0 ||
          rows < 1 ||
          columns < 1 ||
          row + rows > mostRows ||
          column + columns > mostColumns
        )
          throw new OfficeError("InvalidArgument", `there are no cells ${row}, ${column}, ${rows} × ${columns}`);
        return { ...target(), areas: [{ row, column, rows, columns }] };
      });
    },
    getRanges: ({ context, target }: Handle<SheetTarget>, address: string) => {
      if (address.length > longestAddress) throw new Misuse("the address is too long");
      return strictObject<RangeTarget>(context, rangeAreasShape, () => ({
        ...target(),
        areas: address.split(",").map(areaOfAddress),
      }));
    },
    getUsedRangeOrNullObject: usedRange,
    activate: (self) =>
      act(self, "activate", ({ services, sheet }) => {
        if (sheet.visibility !== "Visible") throw new OfficeError("InvalidOperation", "a hidden sheet cannot be shown");
        services.workbook.activeId = sheet.id;
        services.changed("activation", sheet.id);
      }),
    calculate: (self, _all?: boolean) =>
      act(self, "calculate", ({ services, sheet }) => services.changed("calculation", sheet.id)),
    delete: (self) => act(self, "delete", remove),
  },
};
