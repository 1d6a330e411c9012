import { Validator, type Schema } from "@cfworker/json-schema";
import { fnv1a64, reasonOf } from "../core/index.ts";
import { partsOf, wordMarks } from "../checker/index.ts";
import {
  faultOfLogo,
  officeWord,
  says,
  singlesOf,
  withEntered,
  withLogo,
  withoutLocked,
  type Entered,
  type InputValue,
  type Inputs,
  type Logo,
  type Plan,
  type Single,
  type Template,
} from "../sheet/index.ts";
import schema from "./defaults.schema.json";
import { faultOfValue, isChoosable } from "./faultOfValue.ts";
import {
  besideText,
  doubtOf,
  isTo,
  originTexts,
  originsOf,
  standardsOf,
  type StandardNumber,
  type StandardNumbers,
} from "./numbers.ts";
import { Refused } from "./refused.ts";
import { shapeFaults } from "./shapeFaults.ts";
import { placeOf, type Place } from "./settings.ts";

/** A value that an office gives an input, wherever a template asks for it in this unit. */
export interface OfficeValue {
  readonly id: string;
  readonly value: number | string;
  readonly unit: string;
  /** Only for these; every template that asks for it where there are none. */
  readonly templates?: readonly string[];
  /** National annex, approval, measurement: where the number is from. */
  readonly source?: string;
  readonly enteredBy?: string;
  readonly enteredOn?: string;
}

interface Named {
  readonly name: string;
  readonly inputs: readonly OfficeValue[];
}

/** The file as it is. */
export interface DefaultsFile {
  readonly kind: "kernbook office defaults";
  readonly office: string;
  readonly version: string;
  readonly date: string;
  readonly note?: string;
  /** On the first page of every sheet that takes the defaults, unless its template has one. */
  readonly logo?: Logo;
  readonly titleBlock?: readonly OfficeValue[];
  readonly nationalFactors?: readonly OfficeValue[];
  /** Of an edition or a national annex, entered once from the office's copy: who, when, clause. */
  readonly numbers?: readonly StandardNumbers[];
  readonly inputs?: readonly OfficeValue[];
  /** Materials in stock: what an input may be without a remark; the first is its default. */
  readonly stock?: readonly {
    readonly id: string;
    readonly unit: string;
    readonly values: readonly (number | string)[];
  }[];
  /** Friction and wobble by duct: the one chosen, else the first. */
  readonly ducts?: readonly Named[];
  /** A jack for each row of the table of jacks, in this order, from the one chosen. */
  readonly jacks?: readonly Named[];
}

/** What is chosen by name from the lists of the file. */
export interface Chosen {
  readonly duct?: string | undefined;
  readonly jack?: string | undefined;
}

/** A default beside what stands on a sheet that took it. */
export interface DefaultChange {
  readonly id: string;
  readonly onSheet: InputValue;
  readonly now: InputValue;
}

const validator = new Validator(schema as Schema, "2020-12", false);
/** A file larger than this holds something else. */
export const largestDefaults = 1_000_000;

const sameName = (a: string, b: string): boolean => a.trim().toLowerCase() === b.trim().toLowerCase();

/** The unit of an input as its template says it. */
function unitOf(template: Template, id: string): string | undefined {
  for (const item of template.blocks.flatMap(({ items }) => items)) {
    if ("id" in item && item.id === id && item.input) return says(item).unit;
    const column = "table" in item ? item.columns.find((one) => one.id === id && one.input) : undefined;
    if (column) return says(column).unit;
  }
  return template.shape.some((input) => input.id === id) ? "–" : undefined;
}

/** "-" and "–" are both no unit. */
const plainUnit = (unit: string): string => unit.trim().replace(/^[-–]$/, "–");

function takes(template: Template, { id, unit, templates }: Pick<OfficeValue, "id" | "unit" | "templates">): boolean {
  if (templates && !templates.includes(template.id)) return false;
  const own = unitOf(template, id);
  return own !== undefined && plainUnit(own) === plainUnit(unit);
}

/** Whether an input without choices asks for it, or one that has this choice: products of one standard are none of another's. */
const takesValue = (template: Template, one: Pick<OfficeValue, "id" | "value" | "unit" | "templates">): boolean =>
  takes(template, one) && isChoosable(template, one.id, one.value);

/** Whether an input is of a table, and which. */
const isColumn = (place: Place | undefined): boolean => place?.kind === "column";

/** The defaults of an office, ready to fill inputs. */
export class OfficeDefaults {
  /** Of the file's content, whatever its version says. */
  readonly hash: string;

  constructor(
    readonly file: DefaultsFile,
    readonly chosen: Chosen = {},
    /** Numbers far from those of the neighbouring edition: a sentence each, with both. */
    readonly doubts: readonly string[] = [],
  ) {
    const { note: _note, ...content } = file;
    this.hash = fnv1a64(JSON.stringify(content));
    for (const [what, list, name] of [
      ["duct", file.ducts, chosen.duct],
      ["jack", file.jacks, chosen.jack],
    ] as const) {
      if (name === undefined || list?.some((one) => sameName(one.name, name))) continue;
      const there = (list ?? []).map((one) => one.name).join(", ");
      throw new Refused([`${what} = “${name}” is none of the office's; it has: ${there || "none"}`]);
    }
  }

  /** "Example Bridges 3 (2026-11-01)": what a register and a revision table call them. */
  get name(): string {
    const { office, version, date } = this.file;
    const { duct, jack } = this.chosen;
    const chosen = [duct, jack].filter((one) => one !== undefined);
    return `${office} ${version} (${date})${chosen.length > 0 ? `, ${chosen.join(", ")}` : ""}`;
  }

  choosing(chosen: Chosen): OfficeDefaults {
    return new OfficeDefaults(this.file, { ...this.chosen, ...chosen }, this.doubts);
  }

  /** Later ones go before earlier ones; the first in stock is the default. */
  #single(template: Template): readonly OfficeValue[] {
    const { titleBlock = [], nationalFactors = [], inputs = [], stock = [], ducts = [] } = this.file;
    const { duct } = this.chosen;
    const taken = duct === undefined ? ducts[0] : ducts.find(({ name }) => sameName(name, duct));
    const inStock = stock.flatMap(({ id, unit, values }) => values.map((value) => ({ id, unit, value })).reverse());
    return [
      ...inStock,
      ...titleBlock,
      ...nationalFactors,
      ...this.#numbers(template),
      ...inputs,
      ...(taken?.inputs ?? []),
    ];
  }

  /** The numbers of the template's own edition. */
  #numbers(template: Template): readonly StandardNumber[] {
    const ofEdition = (this.file.numbers ?? []).filter(({ standard }) => isTo(template, standard));
    return ofEdition.flatMap(({ values }) => values).filter((one) => takesValue(template, one));
  }

  /** The inputs that the office gives a template: one value for every place of a table, and a list for the table of jacks. */
  inputsFor(template: Template): Inputs {
    const out: Record<string, InputValue> = {};
    for (const one of this.#single(template)) if (takesValue(template, one)) out[one.id] = one.value;
    const { jacks = [] } = this.file;
    const first = jacks.findIndex(({ name }) => sameName(name, this.chosen.jack ?? jacks[0]!.name));
    const inOrder = first < 0 ? [] : [...jacks.slice(first), ...jacks.slice(0, first)];
    const used = this.chosen.jack === undefined ? inOrder : inOrder.slice(0, 1);
    const ids = new Set(used.flatMap(({ inputs }) => inputs.map(({ id }) => id)));
    for (const id of ids) {
      const values = used.map(
        ({ inputs }) => inputs.find((one) => one.id === id && takesValue(template, one))?.value ?? null,
      );
      if (values.every((value) => value === null)) continue;
      // One jack serves both ends.
      out[id] = !isColumn(placeOf(template, id)) || values.length === 1 ? values[0]! : values;
    }
    // What the template locks is not the defaults' to say.
    return withoutLocked(template, out);
  }

  /** Where national factors and numbers of a sheet come from, where the sheet itself has no table of it. */
  originsIn(template: Template, inputs: Inputs): readonly string[] {
    const { nationalFactors = [] } = this.file;
    const entered = [...nationalFactors.filter((one) => takesValue(template, one)), ...this.#numbers(template)];
    return originTexts(
      template,
      entered.filter(({ id, value }) => holds(inputs[id], value)),
    );
  }

  /** What is typed and is not in stock: a remark each. */
  remarksOn(template: Template, inputs: Inputs): readonly string[] {
    return (this.file.stock ?? []).flatMap(({ id, unit, values }) => {
      const own = values.filter((value) => takesValue(template, { id, unit, value }));
      if (own.length === 0) return [];
      const strange = singlesOf(inputs[id]).filter((value) => value !== null && value !== "" && !own.includes(value));
      const inUnit = plainUnit(unit) === "–" ? "" : ` ${unit}`;
      return [...new Set(strange)].map(
        (value) => `${id} = ${value}${inUnit} is not in stock; the office has ${own.join(", ")}${inUnit}`,
      );
    });
  }

  /** Ids of the inputs that hold the office's value, of those that a sheet has. */
  usedIn(template: Template, inputs: Inputs): readonly string[] {
    const own = this.inputsFor(template);
    return Object.entries(own).flatMap(([id, value]) => (holds(inputs[id], value) ? [id] : []));
  }

  /**
   * The cells that say on the sheet what is the office's: the words in the column of marks beside each row, and beside a
   * table whose filled inputs are all the office's; and which defaults they were, in the first line of the revision table.
   */
  marksFor(plan: Plan, template: Template): readonly Entered[] {
    const used = new Set(this.usedIn(template, plan.inputs));
    if (used.size === 0) return [];
    const inputs = plan.meanings.filter(
      ({ id }) => Object.hasOwn(plan.inputs, id) && singlesOf(plan.inputs[id]).some(isGiven),
    );
    const wholly = new Set(
      partsOf(plan)
        .flatMap(({ items }) => items)
        .flatMap(({ first, last }): readonly string[] => {
          const within = inputs.filter(({ at }) => at.row >= first && at.row <= last).map(({ id }) => id);
          return within.every((id) => used.has(id)) ? within : [];
        }),
    );
    const marks = wordMarks(plan, new Map([[officeWord, (id: string) => wholly.has(id)]]));
    const noted = (id: string, value: string): readonly Entered[] =>
      plan.meanings.flatMap((one) => (one.id === id ? [{ row: one.at.row, column: one.at.column, value }] : []));
    const { office, version, date } = this.file;
    const numbers = this.#numbers(template).filter(({ id, value }) => holds(plan.inputs[id], value));
    return [
      ...marks,
      ...originsOf(plan, template, numbers),
      ...noted("revWhat", `“${officeWord}”: defaults of ${office}, ${version}`),
      ...noted("revDate", date),
    ];
  }

  /** The plan with the office's logo, and its marks beside the inputs that are the office's. */
  planned(plan: Plan, template: Template): Plan {
    return withLogo(withEntered(plan, this.marksFor(plan, template)), this.file.logo);
  }

  /** Where a sheet's inputs are no longer what the office gives today, of those that are marked as the office's. */
  changesOn(template: Template, inputs: Inputs, marked: ReadonlySet<string>): readonly DefaultChange[] {
    const own = this.inputsFor(template);
    return [...marked].flatMap((id) => {
      const now = own[id] ?? null;
      const onSheet = inputs[id];
      return onSheet === undefined || holds(onSheet, now) ? [] : [{ id, onSheet, now }];
    });
  }
}

const isGiven = (value: Single): boolean => value !== null && value !== "";

/** Whether every place that is filled holds the office's value. */
function holds(value: InputValue | undefined, own: InputValue): boolean {
  const given = singlesOf(value);
  const wanted = singlesOf(own);
  return (
    given.some(isGiven) &&
    given.every((one, i) => !isGiven(one) || one === (Array.isArray(own) ? (wanted[i] ?? null) : wanted[0]))
  );
}

const numbersOf = (standard: string): string => `numbers of ${standard}`;

const lists = (file: DefaultsFile): readonly (readonly [string, readonly OfficeValue[]])[] => [
  ["titleBlock", file.titleBlock ?? []],
  ["nationalFactors", file.nationalFactors ?? []],
  ...(file.numbers ?? []).map(({ standard, values }) => [numbersOf(standard), values] as const),
  ["inputs", file.inputs ?? []],
  ...(file.ducts ?? []).map(({ name, inputs }) => [`duct “${name}”`, inputs] as const),
  ...(file.jacks ?? []).map(({ name, inputs }) => [`jack “${name}”`, inputs] as const),
];

/** "k7p = 2 is above 1; allowed: …": what is wrong with the value of an input, which some faults begin with. */
const toldOf = (id: string, value: number | string, fault: string): string =>
  fault.startsWith("= ") ? `${id} ${fault}` : `${id} = ${value}: ${fault}`;

/** What is wrong with a value in every template that would take it; undefined where one takes it as it is. */
function faultsOfValue(
  templates: readonly Template[],
  one: Pick<OfficeValue, "id" | "value" | "unit" | "templates">,
): readonly string[] {
  const unknown = (one.templates ?? []).filter((id) => !templates.some((template) => template.id === id));
  if (unknown.length > 0) return [`there is no template “${unknown[0]}”`];
  const asking = templates.filter((template) => takes(template, one));
  if (asking.length === 0) {
    const units = new Set(templates.flatMap((template) => unitOf(template, one.id) ?? []));
    return [
      units.size === 0
        ? `no template has an input “${one.id}”`
        : `no template asks for it in “${one.unit}”; units: ${[...units].join(", ")}`,
    ];
  }
  const choosing = asking.filter((template) => isChoosable(template, one.id, one.value));
  return [
    ...new Set(
      (choosing.length > 0 ? choosing : asking.slice(0, 1)).flatMap((template) => {
        const fault = faultOfValue(template, one.id, one.value);
        return fault === undefined ? [] : [fault];
      }),
    ),
  ];
}

/** Reads a file of defaults for these templates. Throws Refused with everything that is wrong with it. */
export function readDefaults(text: string, templates: readonly Template[], chosen: Chosen = {}): OfficeDefaults {
  if (text.length > largestDefaults)
    throw new Refused([`the file has ${text.length} characters; at most ${largestDefaults} are read`]);
  let json: unknown;
  try {
    json = JSON.parse(text.replace(/^\uFEFF/, ""));
  } catch (error) {
    throw new Refused([`the file is not JSON: ${reasonOf(error)}`]);
  }
  const { valid, errors } = validator.validate(json);
  if (!valid) throw new Refused(shapeFaults(json, errors).slice(0, 10));
  const file = json as DefaultsFile;
  const faults: string[] = lists(file).flatMap(([where, values]) => [
    ...values.flatMap((one) => {
      const standard = file.numbers?.find((numbers) => numbers.values === values)?.standard;
      const asked = standard === undefined ? templates : templates.filter((template) => isTo(template, standard));
      const beside = standard === undefined ? "" : besideText(asked, one.id);
      // That there are no such templates is said below, once.
      return (asked.length === 0 ? [] : faultsOfValue(asked, one)).map(
        (fault) => `${where}, ${toldOf(one.id, one.value, fault)}${beside}`,
      );
    }),
    ...repeated(
      values.map(({ id, unit, templates: only }) => `${id} in ${unit}${only ? ` for ${only.join()}` : ""}`),
    ).map((twice) => `${where}: ${twice} is given twice`),
  ]);
  const known = standardsOf(templates);
  for (const { standard } of file.numbers ?? [])
    if (!templates.some((template) => isTo(template, standard)))
      faults.push(`${numbersOf(standard)}: no template is to this standard; allowed: ${known.join(", ")}`);
  faults.push(
    ...repeated((file.numbers ?? []).map(({ standard }) => standard)).map(
      (standard) => `${numbersOf(standard)} are given twice`,
    ),
  );
  const ofLogo = file.logo && faultOfLogo(file.logo);
  if (ofLogo !== undefined) faults.push(`logo, ${ofLogo}`);
  for (const { id, unit, values } of file.stock ?? [])
    for (const value of values)
      faults.push(
        ...faultsOfValue(templates, { id, unit, value }).map((fault) => `stock, ${toldOf(id, value, fault)}`),
      );
  for (const [what, named] of [
    ["duct", file.ducts],
    ["jack", file.jacks],
  ] as const)
    faults.push(
      ...repeated((named ?? []).map(({ name }) => name.trim().toLowerCase())).map(
        (name) => `${what} “${name}” is given twice`,
      ),
    );
  if (faults.length > 0) throw new Refused([...new Set(faults)]);
  const doubts = (file.numbers ?? []).flatMap(({ standard, values }) => {
    const asked = templates.filter((template) => isTo(template, standard));
    return values.flatMap((one) => doubtOf(asked, one) ?? []);
  });
  return new OfficeDefaults(file, chosen, doubts);
}

const repeated = (keys: readonly string[]): readonly string[] => keys.filter((key, i) => keys.indexOf(key) < i);
