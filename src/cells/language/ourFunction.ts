/** Before the ids of our functions, as they are typed. */
export const namespace = "KERN.";

/** As files keep a function of an add-in, and one that is younger than the file format. */
const prefixes = ["_XLDUDF_KERN_", "_XLFN.KERN.", namespace];

const isIdentifier = (text: string): boolean => {
  for (let i = 0; i < text.length; i++) {
    const c = text.charCodeAt(i);
    if (!((c >= 65 && c <= 90) || (c >= 48 && c <= 57) || c === 95)) return false;
  }
  return text.length > 0;
};

/** The id of one of our functions by its name in a formula, as typed or as files keep it; undefined for any other name. */
export function ourFunction(name: string): string | undefined {
  const capitals = name.toUpperCase();
  const prefix = prefixes.find((p) => capitals.startsWith(p));
  const id = prefix === undefined ? undefined : capitals.slice(prefix.length);
  return id !== undefined && isIdentifier(id) ? id : undefined;
}

/** Ways in which people write one of ours that no program takes for it. */
const nearly = ["KERNBOOK.", "KERNBOOK_", "KERNBOOK", "KERN_", "KERN:", "KERN-", "KERN"];

/** The id meant by a name written in a way that no program takes for one of ours, such as KERN_LOSS; undefined for any other name. */
export function misspeltFunction(name: string): string | undefined {
  const capitals = name.toUpperCase();
  const prefix = nearly.find((p) => capitals.startsWith(p));
  const id = prefix === undefined ? undefined : capitals.slice(prefix.length);
  return id !== undefined && id.length >= 3 && isIdentifier(id) ? id : undefined;
}
