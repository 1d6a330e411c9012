/**
 * The choices of a list as the grid keeps them: with commas between as a plan writes them, or as an array of texts as
 * the grid's own form does.
 */
export function choicesOf(list: string): readonly string[] {
  try {
    const parsed: unknown = JSON.parse(list);
    if (Array.isArray(parsed) && parsed.every((choice) => typeof choice === "string")) return parsed.filter(Boolean);
  } catch {
    // No array: the choices stand as they are.
  }
  return list.split(",");
}
