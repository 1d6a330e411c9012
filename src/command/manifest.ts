import { createHash } from "node:crypto";

/** The add-in's id: a promise to programs that have it, the same in every version and at every address. */
const ownId = "7c3de2a4-51b9-4f0e-9d36-8a1f5be04c72";
const ownName = "Kernbook";

/** What the program knows the add-in by. */
export interface Identity {
  readonly id: string;
  /** On the ribbon and in lists of add-ins. */
  readonly name: string;
}

export const identity: Identity = { id: ownId, name: ownName };

/**
 * Of a version that stays as it is while newer ones follow elsewhere: an id of its own, always the same for this address
 * and version (RFC 9562, version 5: a name within the add-in's id), and a name that tells it apart.
 */
export function pinnedIdentity(address: string, version: string): Identity {
  const hash = createHash("sha1")
    .update(Buffer.from(ownId.replaceAll("-", ""), "hex"))
    .update(`${address} ${version}`)
    .digest()
    .subarray(0, 16);
  hash[6] = (hash[6]! & 0x0f) | 0x50;
  hash[8] = (hash[8]! & 0x3f) | 0x80;
  const id = hash.toString("hex").replace(/^(.{8})(.{4})(.{4})(.{4})(.{12})$/, "$1-$2-$3-$4-$5");
  return { id, name: `${ownName} ${version}` };
}

/** The add-in's manifest for an address: the source with its places filled in. The program counts versions in four parts. */
export function manifestFor(source: string, address: string, version: string, of: Identity = identity): string {
  const values: Readonly<Record<string, string>> = { address, version: `${version}.0`, id: of.id, name: of.name };
  const text = source.replace(/<!--.*?-->\s*/s, "").replace(/\{\{(\w+)\}\}/g, (place, name: string) => {
    const value = values[name];
    if (value === undefined) throw new Error(`the manifest asks for ${place}, which the build does not know`);
    return value.replace(/&/g, "&amp;").replace(/"/g, "&quot;").replace(/</g, "&lt;");
  });
  return text;
}
