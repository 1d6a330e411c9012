/** The add-in's manifest for an address: the source with its places filled in. The program counts versions in four parts. */
export function manifestFor(source: string, address: string, version: string): string {
  const values: Readonly<Record<string, string>> = { address, version: `${version}.0` };
  const text = source.replace(/<!--.*?-->\s*/s, "").replace(/\{\{(\w+)\}\}/g, (place, name: string) => {
    const value = values[name];
    if (value === undefined) throw new Error(`the manifest asks for ${place}, which the build does not know`);
    return value.replace(/&/g, "&amp;").replace(/"/g, "&quot;").replace(/</g, "&lt;");
  });
  return text;
}
