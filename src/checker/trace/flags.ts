import { isNumberAsText, type WrittenArgument } from "../../cells/index.ts";
import {
  everydayText,
  isUnusual,
  nameOf,
  q,
  sortsDiffer,
  type Argument,
  type Parameter,
  type Quantity,
} from "../../core/index.ts";
import { numberText } from "../../typeset/index.ts";
import { termsOf, type Term } from "./terms.ts";
import { letters, saysOtherwise } from "./contraries.ts";
import { unitHeld, type Label } from "./labels.ts";
import type { Origin, OriginOf } from "./origin.ts";
import { inUnit, isPowerOfTen } from "./units.ts";

/** Something about an argument that a checker should look at. */
export interface Flag {
  readonly kind: "unit" | "sort" | "swapped" | "text" | "empty" | "unusual";
  /** The argument's name. */
  readonly parameter: string;
  readonly message: string;
}

/** An argument as far as flags go by it. */
interface Flaggable {
  readonly name: string;
  readonly parameter: Parameter;
  readonly written: WrittenArgument;
  readonly value: Argument;
}

const quantities: Readonly<Record<string, Quantity | undefined>> = q;
const called = (origin: Origin, label: Label | undefined): string =>
  `${origin.address ?? origin.text}${label?.description ? ` (${label.description})` : ""}`;
const inWords = (quantity: Quantity): string =>
  quantity.unit === "–" ? "is a plain number" : `is in ${quantity.unit}`;

function unitMessage(
  wanted: Quantity,
  label: Label | undefined,
  origin: Origin,
  factor: number,
  converted: { readonly from: string; readonly to: string } | undefined,
): string | undefined {
  const single = origin.contents.length === 1 && origin.contents[0]!.length === 1 ? origin.contents[0]![0] : undefined;
  const held = unitHeld(label, single);
  if (!held) return undefined;
  // Rows of several units under one another: what the first is in says nothing of the range.
  if (
    !single &&
    label?.from === "texts" &&
    origin.lowest?.known?.size !== undefined &&
    origin.lowest.known.size !== held.size
  )
    return undefined;
  const right = inUnit(held, wanted.unit);
  const who = called(origin, label);
  const shown = held.text === "–" || held.text === "-" ? "a plain number" : `in ${held.text}`;
  if (right === undefined) return `${who} is ${shown}; this argument ${inWords(wanted)}`;
  const size = Math.abs(factor);
  if (size !== 0 && Math.abs(size / right - 1) < 1e-9) return undefined;
  if (converted)
    return (
      `${who} is ${shown}; CONVERT from “${converted.from}” to “${converted.to}” multiplies by ` +
      `${numberText(size)}, but this argument ${inWords(wanted)}: ${numberText(right)} is needed`
    );
  if (size === 1)
    return (
      `${who} is ${shown}; this argument ${inWords(wanted)}: its value is ` +
      `${right > 1 ? `${numberText(right)} times too small` : `${numberText(1 / right)} times too large`}`
    );
  // A load factor or a number of strands may stand in the factor; a power of ten is a unit's.
  const ratio = size / right;
  if (ratio > 0.05 && ratio < 20 && !isPowerOfTen(ratio)) return undefined;
  if (right === 1 && !isPowerOfTen(ratio)) return undefined;
  return (
    `${who} is ${shown} and is multiplied by ${numberText(size)}; this argument ${inWords(wanted)}, ` +
    `which takes ${right === 1 ? "no factor" : numberText(right)}`
  );
}

function sortMessage(wanted: Quantity, label: Label | undefined, origin: Origin): string | undefined {
  if (!label) return undefined;
  const who = called(origin, label);
  if (label.from === "template") {
    const quantity = label.quantity === undefined ? undefined : quantities[label.quantity];
    const differ = sortsDiffer(wanted, quantity?.sort);
    if (differ === "other") return `${who} is a ${quantity!.sort}; this argument is a ${wanted.sort}`;
    // What is wanted of a sort a template's lint has found right, said or unsaid.
    if (wanted.sort !== undefined) return undefined;
  }
  return saysOtherwise(label, wanted)
    ? `${who}${label.description === "" && label.symbol !== "" ? ` (${label.symbol})` : ""} is something ` +
        `else by its text; this argument is: ${wanted.text}`
    : undefined;
}

const sortOf = (label: Label | undefined): string | undefined =>
  label?.from === "template" && label.quantity !== undefined ? quantities[label.quantity]?.sort : undefined;

/** Of a sort that is taken away as often as it is added only a difference is left, as the time between two ages: no sort any more. */
function cancels(sort: string | undefined, terms: readonly Term[], originOf: OriginOf): boolean {
  if (sort === undefined) return false;
  const net = terms
    .filter(({ reference }) => sortOf(originOf(reference.text)?.label) === sort)
    .reduce((sum, { factor, less }) => sum + (less ? -factor : factor), 0);
  return Math.abs(net) < 1e-9;
}

interface About {
  readonly flag: Flag;
  readonly label?: Label;
}

function scalarFlags(argument: Flaggable, wanted: Quantity, originOf: OriginOf): readonly About[] {
  const { written, name } = argument;
  const node = written.kind === "reference" || written.kind === "expression" ? written.node : undefined;
  const terms = node && termsOf(node);
  const out: About[] = [];
  for (const { reference, factor, converted } of terms ?? []) {
    const origin = originOf(reference.text);
    if (!origin?.place) continue;
    const { label } = origin;
    const add = (kind: Flag["kind"], message: string | undefined): void => {
      if (message !== undefined) out.push({ flag: { kind, parameter: name, message }, ...(label && { label }) });
    };
    const unit = unitMessage(wanted, label, origin, factor, converted);
    add("unit", unit);
    // 0.8 times a cube strength may well be a cylinder strength; a thousand times it is one in another unit.
    if (unit === undefined && isPowerOfTen(factor) && !cancels(sortOf(label), terms!, originOf))
      add("sort", sortMessage(wanted, label, origin));
    const single =
      origin.contents.length === 1 && origin.contents[0]!.length === 1 ? origin.contents[0]![0] : undefined;
    if (!single || single.error) continue;
    const who = called(origin, label);
    if (isNumberAsText(single.value)) add("text", `${who} holds the text “${single.value}”, not a number`);
    if (single.value === null && single.formula === undefined && single.text === "") {
      if (written.kind === "expression") add("empty", `${who} is empty and counts as 0`);
      else if (wanted.default !== undefined && label?.from !== "template")
        add("empty", `${who} is empty: the default ${numberText(wanted.default)} is taken`);
    }
  }
  return out;
}

function tableFlags(
  argument: Flaggable & { readonly parameter: Extract<Parameter, { kind: "table" }> },
  originOf: OriginOf,
): readonly About[] {
  const { written, parameter, name } = argument;
  const origin = written.kind === "reference" ? originOf(written.reference.text) : undefined;
  if (!origin?.place) return [];
  const columns = Object.values(parameter.columns);
  if (origin.place.columns !== columns.length) return [];
  return columns.flatMap((column, i): readonly About[] => {
    const label = origin.columns[i];
    if (column.kind !== "number") return [];
    const at: Origin = { ...origin, contents: [], ...(label && { label }) };
    const texts = origin.contents.filter((row) => isNumberAsText(row[i]?.value));
    const where = `column ${i + 1}, ${nameOf(column)}`;
    const unit = unitMessage(column, label, at, 1, undefined);
    const sort = unit === undefined ? sortMessage(column, label, at) : undefined;
    return [
      ...(unit === undefined
        ? []
        : [
            { flag: { kind: "unit", parameter: name, message: `${where}: ${unit}` } as const, ...(label && { label }) },
          ]),
      ...(sort === undefined
        ? []
        : [
            { flag: { kind: "sort", parameter: name, message: `${where}: ${sort}` } as const, ...(label && { label }) },
          ]),
      ...(texts.length > 0
        ? [
            {
              flag: {
                kind: "text",
                parameter: name,
                message: `${where}: ${texts.length === 1 ? "a number stands" : `${texts.length} numbers stand`} there as text`,
              } as const,
            },
          ]
        : []),
    ];
  });
}

/** Two arguments each of which has what the other wants. */
function swapped(
  all: readonly Flaggable[],
  found: readonly (readonly About[])[],
  originOf: OriginOf,
): readonly (readonly [number, number])[] {
  const labels = all.map(({ written }) =>
    written.kind === "reference" ? originOf(written.reference.text)?.label : undefined,
  );
  const fits = (i: number, j: number): boolean => {
    const wanted = all[j]!.parameter;
    const label = labels[i];
    if (!label || wanted.kind !== "number") return false;
    if (label.known && inUnit(label.known, wanted.unit) !== 1) return false;
    const origin = originOf((all[i]!.written as Extract<WrittenArgument, { kind: "reference" }>).reference.text)!;
    return sortMessage(wanted, label, origin) === undefined;
  };
  const named = (i: number, j: number): boolean => {
    const symbol = labels[i] && letters(labels[i].symbol);
    return (
      symbol !== undefined &&
      symbol !== "" &&
      symbol === letters(all[j]!.parameter.symbol) &&
      symbol !== letters(all[i]!.parameter.symbol)
    );
  };
  const out: (readonly [number, number])[] = [];
  for (let i = 0; i < all.length; i++) {
    for (let j = i + 1; j < all.length; j++) {
      const amiss = (k: number): boolean => found[k]!.some(({ flag }) => flag.kind === "unit" || flag.kind === "sort");
      if (
        (amiss(i) && amiss(j) && fits(i, j) && fits(j, i)) ||
        (named(i, j) && named(j, i) && fits(i, j) && fits(j, i))
      )
        out.push([i, j]);
    }
  }
  return out;
}

/** What does not fit between the arguments of a call and the cells they come from, and values out of the everyday range. */
export function flagsOf(all: readonly Flaggable[], originOf: OriginOf): readonly Flag[] {
  const found = all.map((a): readonly About[] => {
    if (a.parameter.kind === "number") return scalarFlags(a, a.parameter, originOf);
    return a.parameter.kind === "table" ? tableFlags(a as Parameters<typeof tableFlags>[0], originOf) : [];
  });
  const pairs = swapped(all, found, originOf);
  const inPair = new Set(pairs.flat());
  const name = (i: number): string => nameOf(all[i]!.parameter);
  const unusual = all.flatMap(({ name: parameter, parameter: p, value }): readonly Flag[] => {
    if (p.kind !== "number" || typeof value !== "number" || !isUnusual(p, value)) return [];
    return [{ kind: "unusual", parameter, message: `outside the everyday range ${everydayText(p)}` }];
  });
  return [
    ...pairs.flatMap(([i, j]) =>
      [
        [i, j],
        [j, i],
      ].map(([a, b]): Flag => ({
        kind: "swapped",
        parameter: all[a!]!.name,
        message: `what is handed over here fits ${name(b!)}, and the other way round: the two look swapped`,
      })),
    ),
    ...found.flatMap((flags, i) =>
      flags
        .filter(({ flag }) => !inPair.has(i) || (flag.kind !== "unit" && flag.kind !== "sort"))
        .map(({ flag }) => flag),
    ),
    ...unusual,
  ];
}
