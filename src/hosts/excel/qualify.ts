import { tokenize, tokenTypes, type Token } from "@borgar/fx";
import { quotedSheet } from "../host/sheetName.ts";

const references: ReadonlySet<string> = new Set([tokenTypes.REF_RANGE, tokenTypes.REF_BEAM, tokenTypes.REF_TERNARY]);

function hasSheet({ value }: Token): boolean {
  return value.includes("!");
}

/** The names an expression uses without saying a sheet. */
export function namesIn(formula: string): readonly string[] {
  return [
    ...new Set(
      tokenize(formula)
        .filter((token) => token.type === tokenTypes.REF_NAMED && !hasSheet(token))
        .map(({ value }) => value),
    ),
  ];
}

/** The formula as it reads on another sheet: references that say no sheet, and the names of the sheet's own, are given this one. */
export function qualified(formula: string, sheet: string, ownNames: ReadonlySet<string>): string {
  return tokenize(formula)
    .map((token) =>
      !hasSheet(token) &&
      (references.has(token.type) || (token.type === tokenTypes.REF_NAMED && ownNames.has(token.value.toLowerCase())))
        ? `${quotedSheet(sheet)}!${token.value}`
        : token.value,
    )
    .join("");
}
