import { referenceFolder, worksheetFunctions } from "../../functions/index.ts";
import { referencePages } from "../reference/index.ts";
import { publishedCases } from "./cases.ts";

/** The reference pages as the build writes them, by their path among the built files. */
export function referenceFiles(): readonly (readonly [path: string, text: string])[] {
  return [...referencePages({ functions: worksheetFunctions, cases: publishedCases() })].map(([name, text]) => [
    `${referenceFolder}/${name}`,
    text,
  ]);
}
