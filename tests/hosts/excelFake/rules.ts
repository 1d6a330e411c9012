import type { Area } from "../../../src/cells/index.ts";
import { guard, type RangeTarget } from "./services.ts";
import type { FakeHighlight, FakeValidation } from "./state.ts";
import { Misuse, strictObject, type Handle, type Shape } from "./strict.ts";

const overlaps = (a: Area, b: Area): boolean =>
  a.row < b.row + b.rows &&
  b.row < a.row + a.rows &&
  a.column < b.column + b.columns &&
  b.column < a.column + a.columns;
const same = (a: Area, b: Area): boolean =>
  a.row === b.row && a.column === b.column && a.rows === b.rows && a.columns === b.columns;

function validationOf(target: RangeTarget): FakeValidation {
  guard(target, "a validation");
  const [area] = target.areas;
  const known = target.sheet.validations.find((one) => same(one.area, area!));
  if (known) return known;
  const made: FakeValidation = { area: { ...area! }, ignoreBlanks: true };
  target.sheet.validations.push(made);
  return made;
}

const within = (area: Area, { row, column, rows, columns }: Area): boolean =>
  row >= area.row &&
  column >= area.column &&
  row + rows <= area.row + area.rows &&
  column + columns <= area.column + area.columns;

/** The validation the cells have; reading makes none. */
function found(target: RangeTarget): FakeValidation | undefined {
  const [area] = target.areas;
  const known = target.sheet.validations.find((one) => within(one.area, area!));
  if (!known && target.sheet.validations.some((one) => overlaps(one.area, area!)))
    throw new Misuse("the fake reads validations of cells that have one and the same");
  return known;
}

const types: Readonly<Record<string, string>> = {
  wholeNumber: "WholeNumber",
  decimal: "Decimal",
  list: "List",
  custom: "Custom",
};

/** Numbers come back as formulas. */
function asRead(rule: Record<string, unknown> | undefined): unknown {
  return Object.fromEntries(
    Object.entries(rule ?? {}).map(([kind, one]) => [
      kind,
      Object.fromEntries(
        Object.entries(one as object).map(([name, value]: [string, unknown]) => [
          name,
          typeof value === "number" ? `=${value}` : value,
        ]),
      ),
    ]),
  );
}

const unsaid = { showAlert: true, style: "Stop", title: "", message: "" };

function only(value: object, allowed: readonly string[], what: string): void {
  const unknown = Object.keys(value).filter((key) => !allowed.includes(key));
  if (unknown.length > 0) throw new Misuse(`${what} has no ${unknown.join(", ")}`);
}

const kinds = ["wholeNumber", "decimal", "list", "custom"];
const operators = [
  "Between",
  "NotBetween",
  "EqualTo",
  "NotEqualTo",
  "GreaterThan",
  "LessThan",
  "GreaterThanOrEqualTo",
  "LessThanOrEqualTo",
];
const longest = { title: 32, message: 255 };

function checkWords({ title, message }: { readonly title: string; readonly message: string }): void {
  if (title.length > longest.title || message.length > longest.message)
    throw new Misuse("the message of a validation is too long");
}

export const dataValidation: Shape<RangeTarget> = {
  kind: "DataValidation",
  properties: {
    type: { read: (target) => types[Object.keys(found(target)?.rule ?? {})[0] ?? ""] ?? "None" },
    ignoreBlanks: {
      read: (target) => found(target)?.ignoreBlanks ?? true,
      write: (target, value: boolean) => {
        validationOf(target).ignoreBlanks = value;
      },
    },
    rule: {
      read: (target) => asRead(found(target)?.rule),
      write: (target, value: Record<string, Record<string, unknown>>) => {
        only(value, kinds, "a validation's rule");
        const [kind] = Object.keys(value);
        if (Object.keys(value).length !== 1) throw new Misuse("a validation has one rule");
        const rule = value[kind!]!;
        only(
          rule,
          kind === "list"
            ? ["inCellDropDown", "source"]
            : kind === "custom"
              ? ["formula"]
              : ["formula1", "formula2", "operator"],
          kind!,
        );
        if ("operator" in rule && !operators.includes(rule["operator"] as string))
          throw new Misuse(`a validation has no operator ${String(rule["operator"])}`);
        if (kind === "custom" && !String(rule["formula"]).startsWith("="))
          throw new Misuse("a validation's formula begins with =");
        validationOf(target).rule = value;
      },
    },
    prompt: {
      read: (target) => found(target)?.prompt,
      write: (target, value: { showPrompt: boolean; title: string; message: string }) => {
        only(value, ["showPrompt", "title", "message"], "a prompt");
        checkWords(value);
        validationOf(target).prompt = value;
      },
    },
    errorAlert: {
      read: (target) => found(target)?.errorAlert ?? unsaid,
      write: (target, value: { showAlert: boolean; style: string; title: string; message: string }) => {
        only(value, ["showAlert", "style", "title", "message"], "an alert");
        checkWords(value);
        validationOf(target).errorAlert = value;
      },
    },
  },
};

const comparisons = [
  "Between",
  "NotBetween",
  "EqualTo",
  "NotEqualTo",
  "GreaterThan",
  "LessThan",
  "GreaterThanOrEqual",
  "LessThanOrEqual",
];

const textOperators = ["Contains", "NotContains", "BeginsWith", "EndsWith"];

/** Colours of a conditional format. */
const format: NonNullable<Shape<FakeHighlight>["parts"]>[string] = ({ context, target }) =>
  strictObject<FakeHighlight>(
    context,
    {
      kind: "ConditionalRangeFormat",
      properties: { numberFormat: { read: (one) => one.numberFormat ?? "" } },
      parts: {
        font: () =>
          strictObject<FakeHighlight>(
            context,
            {
              kind: "ConditionalRangeFont",
              properties: {
                color: {
                  read: (one) => one.color ?? "",
                  write: (one, value: string) => {
                    one.color = value;
                  },
                },
              },
            },
            target,
          ),
        fill: () =>
          strictObject<FakeHighlight>(
            context,
            {
              kind: "ConditionalRangeFill",
              properties: {
                color: {
                  read: (one) => one.fill ?? "",
                  write: (one, value: string) => {
                    one.fill = value;
                  },
                },
              },
            },
            target,
          ),
      },
    },
    target,
  );

const textComparison: Shape<FakeHighlight> = {
  kind: "TextConditionalFormat",
  properties: {
    rule: {
      read: ({ textRule }) => textRule,
      write: (target, value: { text: string; operator: string }) => {
        only(value, ["text", "operator"], "a comparison of texts");
        if (!textOperators.includes(value.operator))
          throw new Misuse(`there is no comparison of texts ${value.operator}`);
        target.textRule = value;
      },
    },
  },
  parts: { format },
};

const cellValue: Shape<FakeHighlight> = {
  kind: "CellValueConditionalFormat",
  properties: {
    rule: {
      read: ({ rule }) => rule,
      write: (target, value: { formula1: string; operator: string }) => {
        only(value, ["formula1", "formula2", "operator"], "a comparison");
        if (!comparisons.includes(value.operator)) throw new Misuse(`there is no comparison ${value.operator}`);
        if (/KERN\./i.test(value.formula1))
          throw new Misuse("worksheet functions of an add-in give errors in conditional formats");
        target.rule = value;
      },
    },
  },
  parts: { format },
};

/** A condition that is a formula; the fake does not add one. */
const custom: Shape<FakeHighlight> = { kind: "CustomConditionalFormat", parts: { format } };

/** By its type, the part a conditional format has. */
const kindsOfFormat: Readonly<Record<string, readonly [string, Shape<FakeHighlight>]>> = {
  CellValue: ["cellValue", cellValue],
  ContainsText: ["textComparison", textComparison],
};

const areasOf = (find: () => FakeHighlight, context: Handle<unknown>["context"]): object =>
  strictObject<FakeHighlight>(
    context,
    {
      kind: "RangeAreas",
      parts: {
        areas: () =>
          strictObject<FakeHighlight>(
            context,
            { kind: "RangeCollection", items: { shape: areaShape, of: ({ area }) => [area] } },
            find,
          ),
      },
    },
    find,
  );

const areaShape: Shape<Area> = {
  kind: "Range",
  properties: {
    rowIndex: { read: ({ row }) => row },
    columnIndex: { read: ({ column }) => column },
    rowCount: { read: ({ rows }) => rows },
    columnCount: { read: ({ columns }) => columns },
  },
};

const conditionalFormat: Shape<FakeHighlight> = {
  kind: "ConditionalFormat",
  properties: { type: { read: ({ type }) => type } },
  parts: Object.fromEntries(
    [...Object.values(kindsOfFormat), ["custom", custom] as const].map(([name, shape]) => [
      name,
      ({ context, target }: Handle<FakeHighlight>) => strictObject(context, shape, target),
    ]),
  ),
  methods: { getRanges: ({ context, target }: Handle<FakeHighlight>) => areasOf(target, context) },
};

export const conditionalFormats: Shape<RangeTarget> = {
  kind: "ConditionalFormatCollection",
  items: {
    shape: conditionalFormat,
    of: ({ sheet, areas: [area] }: RangeTarget) => sheet.highlights.filter((one) => overlaps(one.area, area!)),
  },
  methods: {
    add: (self: Handle<RangeTarget>, type: string) => {
      const kind = kindsOfFormat[type];
      if (!kind) throw new Misuse(`the fake knows no conditional format ${type}`);
      let made: FakeHighlight | undefined;
      self.context.enqueue("ConditionalFormatCollection.add", () => {
        const target = self.target();
        guard(target, "a conditional format");
        made = { area: { ...target.areas[0]! }, type };
        target.sheet.highlights.push(made);
      });
      return strictObject<FakeHighlight>(self.context, conditionalFormat, () => made);
    },
  },
};
