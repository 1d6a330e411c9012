import type { Parameter } from "./parameters.ts";

/** The values a choice may have where a parameter is asked for, as a reader is told. */
function onlyWith(argument: string, values: readonly string[]): string {
  return `only asked for with ${argument} ${values.join(", ")}`;
}

/**
 * A parameter that a choice decides. `as` has it for each value of the choice that asks for it, of `many`; `joint`
 * describes it where these differ. Where a value does not ask for it, it may stay blank.
 */
export function byChoiceOf(
  argument: string,
  as: Readonly<Record<string, Parameter>>,
  joint: Parameter | undefined,
  many: number,
): Parameter {
  const asking = Object.entries(as);
  const first = asking[0]?.[1];
  if (!first) throw new Error(`nothing asks for an argument beside ${argument}`);
  const same = asking.every(([, one]) => one === first);
  const always = asking.length === many;
  if (same && always) return first;
  if (!same && !joint) throw new Error(`${first.text}: differs with ${argument}, and nothing describes it for all`);
  const described = joint ?? first;
  if (always) return { ...described, varies: { argument, as } };
  const blank = onlyWith(
    argument,
    asking.map(([value]) => value),
  );
  return { ...maybeBlank(described, blank), varies: { argument, as } };
}

function maybeBlank(parameter: Parameter, blank: string): Parameter {
  switch (parameter.kind) {
    case "text":
      throw new Error(`${parameter.text}: a text cannot stay blank`);
    case "table":
      return { ...parameter, optional: true, text: `${parameter.text}; ${blank}` };
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
