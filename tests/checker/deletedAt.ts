import type { Host } from "../../src/hosts/index.ts";

/** The host, of which a sheet is deleted just before its `turn`th answer. */
export function deletedAt(
  turn: number,
  host: Host,
  remove: () => Promise<void>,
): { readonly host: Host; readonly asked: () => number } {
  let asked = 0;
  const watched = new Proxy(host, {
    get(target, key) {
      const member: unknown = Reflect.get(target, key, target);
      if (typeof member !== "function") return member;
      return async (...all: unknown[]): Promise<unknown> => {
        if (++asked === turn) await remove();
        return (member as (...all: unknown[]) => unknown).apply(target, all);
      };
    },
  });
  return { host: watched, asked: () => asked };
}
