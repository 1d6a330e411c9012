import { rangeShape, rangeAreasShape } from "./range.ts";
import type { RangeTarget, Services, SheetTarget } from "./services.ts";
import { newSheet, type FakeSheet } from "./state.ts";
import { act, Misuse, OfficeError, strictObject, type FakeContext, type Handle, type Shape } from "./strict.ts";
import { checkName, namedItem, worksheetShape } from "./worksheet.ts";

const asTarget = (services: Services, sheet: FakeSheet | undefined): SheetTarget | undefined =>
  sheet && { services, sheet };
const byKey = (services: Services, key: string): SheetTarget | undefined =>
  asTarget(
    services,
    services.workbook.sheets.find(({ id, name }) => id === key || name.toLowerCase() === key.toLowerCase()),
  );
const active = (services: Services): SheetTarget =>
  asTarget(
    services,
    services.workbook.sheets.find(({ id }) => id === services.workbook.activeId),
  )!;

function events(name: keyof Services["handlers"]): (self: Handle<Services>) => object {
  return (self) =>
    strictObject<Services>(
      self.context,
      {
        kind: "EventHandlers",
        methods: {
          add: (own: Handle<Services>, handler: (args: { readonly worksheetId: string }) => Promise<void>) => {
            act(own, "add", ({ handlers }) => handlers[name].add(handler));
            return strictObject<Services>(
              own.context,
              {
                kind: "EventHandlerResult",
                methods: {
                  remove: (result) => act(result, "remove", ({ handlers }) => handlers[name].delete(handler)),
                },
              },
              own.target,
            );
          },
        },
      },
      self.target,
    );
}

const worksheets: Shape<Services> = {
  kind: "WorksheetCollection",
  items: {
    shape: worksheetShape,
    of: (services) => services.workbook.sheets.map((sheet) => asTarget(services, sheet)),
  },
  parts: {
    onSelectionChanged: events("selection"),
    onActivated: events("activation"),
    onChanged: events("entry"),
    onCalculated: events("calculation"),
  },
  methods: {
    add: (self: Handle<Services>, name: string) => {
      let made: SheetTarget | undefined;
      act(self, "add", (services) => {
        const { workbook } = services;
        if (workbook.structureProtected) throw new OfficeError("AccessDenied", "the workbook's structure is protected");
        const sheet = newSheet(`{${workbook.nextId++}}`, "");
        made = { services, sheet };
        checkName(made, name);
        sheet.name = name;
        workbook.sheets.push(sheet);
      });
      return strictObject(self.context, worksheetShape, () => made);
    },
    getItem: ({ context, target }: Handle<Services>, key: string) =>
      strictObject(context, worksheetShape, () => byKey(target(), key)),
    getItemOrNullObject: ({ context, target }: Handle<Services>, key: string) =>
      strictObject(context, worksheetShape, () => byKey(target(), key), true),
    getActiveWorksheet: ({ context, target }: Handle<Services>) =>
      strictObject(context, worksheetShape, () => active(target())),
  },
};

const names: Shape<Services> = {
  kind: "NamedItemCollection",
  methods: {
    getItemOrNullObject: ({ context, target }: Handle<Services>, name: string) =>
      strictObject(
        context,
        namedItem,
        () => {
          const all = target().workbook.names;
          const key = name.toLowerCase();
          const formula = all.get(key);
          const change = (other: string | undefined): void => {
            if (other === undefined) all.delete(key);
            else all.set(key, other);
          };
          return formula === undefined ? undefined : { name, formula, change };
        },
        true,
      ),
    add: (self: Handle<Services>, name: string, formula: string) => {
      act(self, "add", ({ workbook }) => {
        if (workbook.names.has(name.toLowerCase()))
          throw new OfficeError("ItemAlreadyExists", `the name ${name} is taken`);
        workbook.names.set(name.toLowerCase(), formula);
      });
      return strictObject(self.context, namedItem, () => undefined);
    },
  },
};

const application: Shape<Services> = {
  kind: "Application",
  methods: {
    calculate: (self: Handle<Services>, kind: string) => {
      if (!["Recalculate", "Full", "FullRebuild"].includes(kind)) throw new Misuse(`there is no calculation ${kind}`);
      act(self, `calculate(${kind})`, (services) => {
        for (const { id } of services.workbook.sheets) services.changed("calculation", id);
      });
    },
    suspendScreenUpdatingUntilNextSync: (self) => act(self, "suspendScreenUpdatingUntilNextSync", () => undefined),
    suspendApiCalculationUntilNextSync: (self) =>
      act(self, "suspendApiCalculationUntilNextSync", (services) => {
        services.suspended = true;
      }),
  },
};

function selectedRanges({ context, target }: Handle<Services>): object {
  const find = (): RangeTarget => {
    const services = target();
    if (services.workbook.drawingSelected)
      throw new OfficeError("InvalidSelection", "the current selection is invalid for this action");
    return { ...active(services), areas: active(services).sheet.selected };
  };
  return strictObject<RangeTarget>(
    context,
    {
      ...rangeAreasShape,
      parts: {
        ...rangeAreasShape.parts,
        areas: () =>
          strictObject<RangeTarget>(
            context,
            {
              kind: "RangeCollection",
              items: {
                shape: rangeShape,
                of: (all) => all.areas.map((area): RangeTarget => ({ ...all, areas: [area] })),
              },
            },
            find,
          ),
        worksheet: () => strictObject<SheetTarget>(context, worksheetShape, find),
      },
    },
    find,
  );
}

export function workbookObject(context: FakeContext, services: Services): object {
  return strictObject<Services>(
    context,
    {
      kind: "Workbook",
      parts: {
        worksheets: (self) => strictObject(self.context, worksheets, self.target),
        names: (self) => strictObject(self.context, names, self.target),
        application: (self) => strictObject(self.context, application, self.target),
        protection: (self) =>
          strictObject<Services>(
            self.context,
            {
              kind: "WorkbookProtection",
              properties: { protected: { read: ({ workbook }) => workbook.structureProtected } },
            },
            self.target,
          ),
      },
      methods: {
        getSelectedRanges: selectedRanges,
        getSelectedRange: () => {
          throw new Misuse("getSelectedRange fails where several areas are selected");
        },
      },
    },
    () => services,
  );
}
