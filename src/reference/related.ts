import { variantsOf, type Columns, type Parameter, type Quantity } from "../core/index.ts";
import type { WorksheetFunction } from "../../functions/index.ts";

/** Functions that belong together with another, by how. */
interface Related {
  /** The same name to another standard or edition, or to none. */
  readonly sameName: readonly WorksheetFunction[];
  /** Give the same quantity within the same subject: by another rule, or for another case. */
  readonly sameQuantity: readonly WorksheetFunction[];
  /** Give what is an argument here, by the argument's name. */
  readonly givesArgument: readonly { readonly parameter: string; readonly functions: readonly WorksheetFunction[] }[];
  /** Take this result as an argument. */
  readonly takesResult: readonly WorksheetFunction[];
}

/** Quantities too general to tell which function gives them: a distance, a moment of any kind. */
const general: ReadonlySet<string> = new Set(["distance", "controlX", "angle", "moment", "eccentricity"]);

/** What a function gives: one quantity, or the columns of its rows. */
function resultsOf({ formula, spill }: WorksheetFunction): readonly Quantity[] {
  if (formula) return [...new Set(variantsOf(formula).map((f) => f.result))];
  return Object.values(spill?.columns ?? {});
}

/** The keys a parameter or column goes by: its own, and those of the quantities a choice makes of it. */
const keysOf = (of: Columns[string]): readonly string[] =>
  of.kind === "number" && of.follows ? [of.key, ...Object.values(of.follows.as).map(({ key }) => key)] : [of.key];

/** A parameter as a choice among the others makes it; itself where none does. */
const inAnyCall = (parameter: Parameter): readonly Parameter[] =>
  parameter.varies ? Object.values(parameter.varies.as) : [parameter];

function takenBy(of: WorksheetFunction): ReadonlySet<string> {
  return new Set(
    of.parameters
      .flatMap(({ parameter: declared }) => inAnyCall(declared))
      .flatMap((parameter) => {
        if (parameter.kind === "number") return keysOf(parameter);
        if (parameter.kind !== "table") return [];
        const tables = Object.values(parameter.kinds?.tables ?? { parameter });
        return tables.flatMap(({ columns }) => Object.values(columns).flatMap(keysOf));
      }),
  );
}

/** The name without the standard and its edition: `CREEP_COEFFICIENT` of `CREEP_COEFFICIENT_EN1992_2004`. */
function baseName(id: string): string {
  return id.replace(/_[A-Z]+\d*[A-Z]*_\d{4}$/, "");
}

export function relatedTo(of: WorksheetFunction, functions: readonly WorksheetFunction[]): Related {
  const others = functions.filter((f) => f !== of);
  const family = (f: WorksheetFunction): string | undefined => (f.formula ?? f.spill)?.family;
  const keys = new Set(resultsOf(of).map((q) => q.key));
  const gives = (f: WorksheetFunction, key: string): boolean => resultsOf(f).some((q) => q.key === key);
  const sameName = others.filter((f) => baseName(f.id) === baseName(of.id));
  const sameQuantity = others.filter(
    (f) => !sameName.includes(f) && family(f) === family(of) && resultsOf(f).some((q) => keys.has(q.key)),
  );
  const givesArgument = of.parameters.flatMap(({ name, parameter }) => {
    if (parameter.kind !== "number" || general.has(parameter.key)) return [];
    const giving = others.filter((f) => gives(f, parameter.key) && !sameQuantity.includes(f) && !sameName.includes(f));
    return giving.length > 0 ? [{ parameter: name, functions: giving }] : [];
  });
  const takesResult = others.filter(
    (f) =>
      !sameQuantity.includes(f) &&
      !sameName.includes(f) &&
      [...keys].some((key) => !general.has(key) && takenBy(f).has(key)),
  );
  return { sameName, sameQuantity, givesArgument, takesResult };
}
