import type { GridRuntime } from "./runtime.ts";

/**
 * The grid takes a name and the minus before it, at the beginning of a formula, an argument or behind another sign, for
 * one word, and finds no such name. Asked for that word, it is given what the name stands for with its sign changed.
 */
export function readSignedNames({ formula, univer }: GridRuntime): void {
  const service = univer.__getInjector().get(formula.IDefinedNamesService);
  const known = service.getValueByName.bind(service);
  service.getValueByName = (unitId, name) => {
    const found = known(unitId, name);
    if (found || !name.startsWith("-")) return found;
    const positive = service.getValueByName(unitId, name.slice(1).trim());
    return positive && { ...positive, formulaOrRefString: `=-(${positive.formulaOrRefString.replace(/^=/, "")})` };
  };
}
