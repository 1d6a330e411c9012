/** Work done in steps, between each of which a page can show what was typed meanwhile. */
export type Steps<T> = Generator<undefined, T, undefined>;
