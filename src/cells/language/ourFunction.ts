const ours = /^(?:_xldudf_KERN_|(?:_xlfn\.)?KERN\.)([A-Z0-9_]+)$/i;

/** The id of one of our functions by its name in a formula, as typed or as files keep it; undefined for any other name. */
export function ourFunction(name: string): string | undefined {
  return ours.exec(name)?.[1]?.toUpperCase();
}
