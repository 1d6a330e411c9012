import type { Parameter, Varies } from "./parameters.ts";

/** The values a choice may have where a parameter is used, and what holds for the others, as a reader is told. */
function onlyWith(argument: string, values: readonly string[], ignored: string | undefined): string {
  const used = `used only with ${argument} ${values.join(", ")}`;
  return ignored === undefined ? `${used}; leave it blank otherwise` : `${used}; ignored otherwise, ${ignored}`;
}

/** How a parameter follows from a choice. */
interface ByChoice {
  /** The name of the argument that decides. */
  readonly argument: string;
  /** The parameter for each value of the choice that asks for it. */
  readonly as: Readonly<Record<string, Parameter>>;
  /** Describes it where these differ. */
  readonly joint: Parameter | undefined;
  /** How many values the choice has. */
  readonly many: number;
  /** Why a value may stand where it is not asked for; without it, it must be blank. */
  readonly ignored: string | undefined;
}

/** A parameter that a choice decides. */
export function byChoiceOf({ argument, as, joint, many, ignored }: ByChoice): Parameter {
  const asking = Object.entries(as);
  const first = asking[0]?.[1];
  if (!first) throw new Error(`nothing asks for an argument beside ${argument}`);
  const same = asking.every(([, one]) => one === first);
  const always = asking.length === many;
  if (same && always) return first;
  if (!same && !joint) throw new Error(`${first.text}: differs with ${argument}, and nothing describes it for all`);
  const described = joint ?? first;
  if (always) return { ...described, varies: { argument, as, always } };
  const values = asking.map(([value]) => value);
  const varies: Varies = { argument, as, ...(ignored !== undefined && { ignored }) };
  return { ...maybeBlank(described, onlyWith(argument, values, ignored)), varies };
}

function maybeBlank(parameter: Parameter, blank: string): Parameter {
  switch (parameter.kind) {
    case "text":
      throw new Error(`${parameter.text}: a text cannot stay blank`);
    case "table":
      return { ...parameter, optional: true, blank };
    case "number": {
      const { default: _, ...rest } = parameter;
      return { ...rest, blank };
    }
    case "choice": {
      const { default: _, ...rest } = parameter;
      return { ...rest, blank };
    }
  }
}
