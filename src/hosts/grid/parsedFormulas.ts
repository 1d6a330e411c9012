import type { GridRuntime } from "./runtime.ts";

/** Room for several sheets; one has up to six thousand formulas that differ. */
const room = 50_000;

/**
 * The grid keeps 5,000 formulas parsed. With more, each calculation runs through them in order and finds none of those
 * it kept: everything is parsed anew, several times over. Its store is no part of what it hands out, so it is caught
 * where the grid goes through it to forget nothing.
 */
export function keepMoreParsed({ core, formula, univer }: GridRuntime): void {
  const store = core.LRUMap.prototype;
  // eslint-disable-next-line @typescript-eslint/unbound-method -- put back as it was
  const forEach = store.forEach;
  store.forEach = function (this: { limit: number }) {
    this.limit = Math.max(this.limit, room);
  };
  try {
    univer.__getInjector().get(formula.IFunctionService).deleteFormulaAstCacheKey();
  } finally {
    store.forEach = forEach;
  }
}

/**
 * The grid also keeps the words of formulas, with what their names stood for then, and forgets them for no name. Its
 * store is caught where it is asked for a formula.
 */
export function forgetWords({ core, formula, univer }: GridRuntime): void {
  const store = core.LRUMap.prototype as { get(this: { clear(): void }, key: unknown): unknown };
  // eslint-disable-next-line @typescript-eslint/unbound-method -- put back as it was
  const get = store.get;
  const asked = new Set<{ clear(): void }>();
  store.get = function (key) {
    asked.add(this);
    return get.call(this, key);
  };
  try {
    univer.__getInjector().get(formula.LexerTreeBuilder).treeBuilder("=0");
  } finally {
    store.get = get;
  }
  for (const words of asked) words.clear();
}
