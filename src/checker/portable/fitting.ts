import { a1, type Place } from "../../cells/index.ts";

/** As long as a program takes a formula. */
export const longestFormula = 8192;

/** As many arguments as a program takes. */
const mostArguments = 255;

export const fits = (formula: string): boolean => formula.length < longestFormula;

/** The formula of a cell, once it is whole; throws where programs do not take one as long. */
export function fitting(formula: string, at: Place): string {
  if (fits(formula)) return formula;
  throw new Error(
    `the formula of ${a1(at)} of “${at.sheet}” would have ${formula.length} characters on the copy; ` +
      `programs take fewer than ${longestFormula}`,
  );
}

const sumOf = (addresses: readonly string[]): string => `=SUM(${addresses.join(",")})`;

/** Sums of addresses, as many as it takes for programs to take each. */
export function partialSums(addresses: readonly string[]): readonly string[] {
  const sums: string[][] = [[]];
  for (const address of addresses) {
    const last = sums.at(-1)!;
    if (last.length < mostArguments && fits(sumOf([...last, address]))) last.push(address);
    else sums.push([address]);
  }
  return sums.map(sumOf);
}
