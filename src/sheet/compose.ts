/** Parts that several templates share: by name, what stands in place of `{ "use": name }`. */
export type Parts = Readonly<Record<string, readonly unknown[]>>;

const partNamed = (value: unknown): string | undefined => {
  if (typeof value !== "object" || value === null || Array.isArray(value)) return undefined;
  const { use, ...rest } = value as { readonly use?: unknown };
  return typeof use === "string" && Object.keys(rest).length === 0 ? use : undefined;
};

/**
 * A template's JSON with its shared parts in place: wherever an array (of blocks, items, columns, charts, choices …)
 * holds `{ "use": name }`, the members of that part stand instead; parts may use parts. Throws where there is no such
 * part, or where a part uses itself.
 */
export function compose(file: unknown, parts: Parts, within: readonly string[] = []): unknown {
  if (Array.isArray(file)) {
    return file.flatMap((member: unknown) => {
      const name = partNamed(member);
      if (name === undefined) return [compose(member, parts, within)];
      if (within.includes(name))
        throw new Error(`the shared part ${name} uses itself: ${[...within, name].join(", ")}`);
      const part = parts[name];
      if (!part) throw new Error(`there is no shared part ${name}; there are ${Object.keys(parts).sort().join(", ")}`);
      return compose(part, parts, [...within, name]);
    });
  }
  if (typeof file !== "object" || file === null) return file;
  return Object.fromEntries(Object.entries(file).map(([key, value]) => [key, compose(value, parts, within)]));
}
