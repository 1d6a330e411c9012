/** What stands for a figure where the sheet shows an error. */
export const noFigure = "–";

/** Why a check has no result where its cell shows an error, by the statuses of the sheet's inputs. */
export function noResultText(statuses: readonly string[]): string {
  return statuses.includes("MISSING") ? "inputs missing" : "no result";
}
