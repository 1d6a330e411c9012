import type { Area } from "../../../src/sheet/index.ts";
import { guard, type RangeTarget } from "./services.ts";
import type { FakeHighlight, FakeValidation } from "./state.ts";
import { Misuse, strictObject, type Handle, type Shape } from "./strict.ts";

const same = (a: Area, b: Area): boolean => a.row === b.row && a.column === b.column && a.rows === b.rows && a.columns === b.columns;

function validationOf(target: RangeTarget): FakeValidation {
  guard(target, "a validation");
  const [area] = target.areas;
  const known = target.sheet.validations.find((one) => same(one.area, area!));
  if (known) return known;
  const made: FakeValidation = { area: { ...area! }, ignoreBlanks: true };
  target.sheet.validations.push(made);
  return made;
}

function only(value: object, allowed: readonly string[], what: string): void {
  const unknown = Object.keys(value).filter((key) => !allowed.includes(key));
  if (unknown.length > 0) throw new Misuse(`${what} has no ${unknown.join(", ")}`);
}

const kinds = ["wholeNumber", "decimal", "list", "custom"];
const operators = ["Between", "NotBetween", "EqualTo", "NotEqualTo", "GreaterThan", "LessThan", "GreaterThanOrEqualTo", "LessThanOrEqualTo"];
const longest = { title: 32, message: 255 };

function checkWords({ title, message }: { readonly title: string; readonly message: string }): void {
  if (title.length > longest.title || message.length > longest.message) throw new Misuse("the message of a validation is too long");
}

export const dataValidation: Shape<RangeTarget> = {
  kind: "DataValidation",
  properties: {
    ignoreBlanks: { read: (target) => validationOf(target).ignoreBlanks, write: (target, value: boolean) => { validationOf(target).ignoreBlanks = value; } },
    rule: {
      read: (target) => validationOf(target).rule,
      write: (target, value: Record<string, Record<string, unknown>>) => {
        only(value, kinds, "a validation's rule");
        const [kind] = Object.keys(value);
        if (Object.keys(value).length !== 1) throw new Misuse("a validation has one rule");
        const rule = value[kind!]!;
        only(rule, kind === "list" ? ["inCellDropDown", "source"] : kind === "custom" ? ["formula"] : ["formula1", "formula2", "operator"], kind!);
        if ("operator" in rule && !operators.includes(rule["operator"] as string)) throw new Misuse(`a validation has no operator ${String(rule["operator"])}`);
        if (kind === "custom" && !String(rule["formula"]).startsWith("=")) throw new Misuse("a validation's formula begins with =");
        validationOf(target).rule = value;
      },
    },
    prompt: { read: (target) => validationOf(target).prompt, write: (target, value: { showPrompt: boolean; title: string; message: string }) => { only(value, ["showPrompt", "title", "message"], "a prompt"); checkWords(value); validationOf(target).prompt = value; } },
    errorAlert: { read: (target) => validationOf(target).errorAlert, write: (target, value: { showAlert: boolean; style: string; title: string; message: string }) => { only(value, ["showAlert", "style", "title", "message"], "an alert"); checkWords(value); validationOf(target).errorAlert = value; } },
  },
};

const comparisons = ["Between", "NotBetween", "EqualTo", "NotEqualTo", "GreaterThan", "LessThan", "GreaterThanOrEqual", "LessThanOrEqual"];

const textOperators = ["Contains", "NotContains", "BeginsWith", "EndsWith"];

/** Colours of a conditional format. */
const format: NonNullable<Shape<FakeHighlight>["parts"]>[string] = ({ context, target }) => strictObject<FakeHighlight>(context, {
  kind: "ConditionalRangeFormat",
  parts: {
    font: () => strictObject<FakeHighlight>(context, { kind: "ConditionalRangeFont", properties: { color: { read: (one) => one.color, write: (one, value: string) => { one.color = value; } } } }, target),
    fill: () => strictObject<FakeHighlight>(context, { kind: "ConditionalRangeFill", properties: { color: { read: (one) => one.fill, write: (one, value: string) => { one.fill = value; } } } }, target),
  },
}, target);

const textComparison: Shape<FakeHighlight> = {
  kind: "TextConditionalFormat",
  properties: {
    rule: {
      read: ({ textRule }) => textRule,
      write: (target, value: { text: string; operator: string }) => {
        only(value, ["text", "operator"], "a comparison of texts");
        if (!textOperators.includes(value.operator)) throw new Misuse(`there is no comparison of texts ${value.operator}`);
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
        if (/KERN\./i.test(value.formula1)) throw new Misuse("worksheet functions of an add-in give errors in conditional formats");
        target.rule = value;
      },
    },
  },
  parts: { format },
};

/** By its type, the part a conditional format has. */
const kindsOfFormat: Readonly<Record<string, readonly [string, Shape<FakeHighlight>]>> = { CellValue: ["cellValue", cellValue], ContainsText: ["textComparison", textComparison] };

export const conditionalFormats: Shape<RangeTarget> = {
  kind: "ConditionalFormatCollection",
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
      return strictObject<FakeHighlight>(self.context, { kind: "ConditionalFormat", parts: { [kind[0]]: ({ context, target }) => strictObject(context, kind[1], target) } }, () => made);
    },
  },
};
